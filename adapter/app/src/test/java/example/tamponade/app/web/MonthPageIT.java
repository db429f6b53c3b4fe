package example.tamponade.app.web;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import example.tamponade.app.crash.Waiting;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.serve.RunningServer;
import java.io.StringReader;
import java.time.Duration;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;

class MonthPageIT {

    @Test
    void thePageOfAMonthSaysWhatItsTableSays() throws Exception {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(database)) {
            for (String sample : Samples.CASES) {
                server.post("application/x-ndjson", Samples.events(sample));
            }
            Waiting.until(
                    Duration.ofMinutes(2),
                    "the record",
                    () -> server.get("/ledger").body().contains("\"casesBehind\":0"));
            String table = server.get("/measures?month=2026-04").body();
            String page = server.get("/measures?month=2026-04&as=page")
                    .body()
                    .replaceAll("(?s)<script type=\"application/json\".*", "")
                    .replaceAll("<[^>]*>", "|")
                    .replaceAll("[|\\s]*\\|[|\\s]*", "|");
            try (CSVParser rows = CSVFormat.RFC4180
                    .builder()
                    .setHeader()
                    .setSkipHeaderRecord(true)
                    .get()
                    .parse(new StringReader(table))) {
                List<CSVRecord> all = rows.getRecords();
                assertThat(all).hasSize(11);
                for (CSVRecord row : all) {
                    assertThat(page)
                            .contains("|" + row.get("title") + "|" + row.get("cases asked") + "|"
                                    + row.get("cases that met it") + "|" + row.get("share in %"));
                }
            }
            assertThat(page)
                    .contains("Month of care 2026-04", "2 cases began in it", "not a medical device")
                    .contains("NIST/SEMATECH e-Handbook", "Spiegelhalter 2005", "too few cases to compare");
            assertThat(server.get("/measures?month=2026-04&as=page&facility=nowhere")
                            .body())
                    .contains("0 cases began in it, of nowhere", "no case");
            assertThat(server.get("/measures?month=april&as=page").statusCode()).isEqualTo(400);
        }
    }
}
