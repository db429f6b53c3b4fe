package example.tamponade.app.summary;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.Samples;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.serve.RunningServer;
import java.net.http.HttpResponse;
import java.util.List;
import java.util.TreeMap;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.StreamSupport;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.Observation;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The page of a case: what it draws is what is on record, and it loads nothing from elsewhere. */
class CasePageIT {

    private static final String CASE = "/case/marrowby-cross/MRX-2026-0048";

    @EachDatabase
    void drawsWhatIsOnRecord(TestDatabase where) {
        try (RunningServer server = RunningServer.start(where)) {
            server.post("application/x-ndjson", Samples.events("referred"));
            settle(server);
            HttpResponse<String> page = server.get(CASE);

            assertThat(page.statusCode()).isEqualTo(200);
            assertThat(page.body()).contains("not a medical device");
            assertThat(page.headers().firstValue("Content-Security-Policy").orElseThrow())
                    .contains("default-src 'none'", "script-src 'self'")
                    .doesNotContain("unsafe-eval");
            Matcher loaded = Pattern.compile("(?:src|href)=\"([^\"]*)\"").matcher(page.body());
            while (loaded.find()) {
                assertThat(loaded.group(1)).startsWith("/");
                assertThat(server.get(loaded.group(1)).statusCode())
                        .as(loaded.group(1))
                        .isEqualTo(200);
            }
            JsonNode course = course(page.body());
            compare(server, course, "Balloon", "tamponade-chamber-volume");
            compare(server, course, "Blood loss so far", "cumulative-blood-loss");
            compare(server, course, "Shock index", "shock-index");
            compare(server, course, "Urine", "rolling-urine-rate");
            List<String> marks = StreamSupport.stream(course.required("marks").spliterator(), false)
                    .map(it -> it.required("text").asString())
                    .toList();
            for (Bundle.BundleEntryComponent entry :
                    bundle(server, "/fhir/Flag?_count=500").getEntry()) {
                String text = ((Flag) entry.getResource()).getCode().getText();
                assertThat(marks).contains(text);
                assertThat(page.body()).contains(text.split("[<&'>]")[0]);
            }
            assertThat(page.body()).contains("Oxytocin: 10 IU");
            String high = Long.toString(bundle(server, "/fhir/Flag?_count=500&status=active").getEntry().stream()
                    .filter(it -> ((Flag) it.getResource())
                            .getExtensionsByUrl(
                                    "https://tamponade-adapter.example/fhir/StructureDefinition/flag-severity")
                            .get(0)
                            .getValue()
                            .primitiveValue()
                            .equals("high"))
                    .count());
            assertThat(server.get("/case").body())
                    .contains("href=\"" + CASE + "\"", "1 cases", ">" + high + " high, ", "not a medical device");
            assertThat(server.get("/case/marrowby-cross/none").statusCode()).isEqualTo(404);
        }
    }

    // A line that led on would show fluid in the balloon that is out.
    @EachDatabase
    void noLineLeadsOnWhenTheBalloonIsOut(TestDatabase where) {
        try (RunningServer server = RunningServer.start(where)) {
            server.post("application/x-ndjson", Samples.events("settled"));
            settle(server);

            JsonNode balloon = course(
                            server.get("/case/fernglade-hp/FGL-2026-0117").body())
                    .required("panels")
                    .get(0)
                    .required("series")
                    .get(0)
                    .required("points");
            assertThat(balloon.get(balloon.size() - 1).hasNonNull("value")).isFalse();
            assertThat(balloon.get(balloon.size() - 2).hasNonNull("value")).isTrue();
        }
    }

    private static void settle(RunningServer server) {
        while (!server.get("/ledger").body().contains("\"casesBehind\":0")) {
            Thread.onSpinWait();
        }
    }

    private static JsonNode course(String page) {
        Matcher data =
                Pattern.compile("id=\"course\">(.*?)</script>", Pattern.DOTALL).matcher(page);
        assertThat(data.find()).isTrue();
        return JsonMapper.shared().readTree(data.group(1));
    }

    // Every value with a number, at its time by the clock there.
    private static void compare(RunningServer server, JsonNode course, String title, String code) {
        TreeMap<Long, String> drawn = new TreeMap<>();
        for (JsonNode panel : course.required("panels")) {
            if (panel.required("title").asString().equals(title)) {
                panel.required("series").get(0).required("points").forEach(it -> {
                    if (it.hasNonNull("value")
                            && it.required("at").asLong()
                                    != course.required("now").asLong()) {
                        drawn.put(
                                it.required("at").asLong(),
                                it.required("value")
                                        .decimalValue()
                                        .stripTrailingZeros()
                                        .toPlainString());
                    }
                });
            }
        }
        TreeMap<Long, String> onRecord = new TreeMap<>();
        bundle(server, "/fhir/Observation?_count=500&status=final,amended&code=" + code)
                .getEntry()
                .forEach(it -> {
                    Observation value = (Observation) it.getResource();
                    java.time.OffsetDateTime at = java.time.OffsetDateTime.parse(
                            value.getEffectiveDateTimeType().getValueAsString());
                    if (value.hasValueQuantity()) {
                        onRecord.put(
                                at.toEpochSecond() + at.getOffset().getTotalSeconds(),
                                value.getValueQuantity()
                                        .getValue()
                                        .stripTrailingZeros()
                                        .toPlainString());
                    }
                });
        onRecord.remove(course.required("now").asLong());
        assertThat(drawn).as(title).isNotEmpty().isEqualTo(onRecord);
    }

    private static Bundle bundle(RunningServer server, String path) {
        return FhirContext.forR4Cached()
                .newJsonParser()
                .parseResource(Bundle.class, server.get(path).body());
    }

    @EachDatabase
    void anOpenCaseIsShownAsItStandsNow(TestDatabase where) {
        try (RunningServer server = RunningServer.start(where)) {
            List<String> events = new String(Samples.events("referred"), UTF_8)
                    .lines()
                    .filter(it -> it.contains("\"case-opened\"") || it.contains("\"vital-signs\""))
                    .limit(3)
                    .toList();
            String worst = events.get(1)
                    .replaceFirst("\"eventId\":\"[^\"]*\"", "\"eventId\":\"" + UUID.randomUUID() + "\"")
                    .replaceFirst("\"data\":\\{.*", "\"data\":{\"pulse\":140,\"pressureUnrecordable\":true}}");
            server.post("application/x-ndjson", (String.join("\n", events) + "\n" + worst).getBytes(UTF_8));
            settle(server);

            HttpResponse<String> page = server.get(CASE);

            assertThat(page.headers().firstValue("Refresh")).contains("60");
            // Readings of months ago hold no more.
            assertThat(page.body()).contains("seen at", "ago, stale").containsPattern("\\d{3,} h \\d+ min ago");
            assertThat(course(page.body()).required("marks").toString()).contains("Pressure not recordable");
        }
    }
}
