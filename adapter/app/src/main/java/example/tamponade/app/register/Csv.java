package example.tamponade.app.register;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.jspecify.annotations.Nullable;

/** Splits one row of CSV into its cells. */
final class Csv {

    /** What can stand between cells. */
    static final String SEPARATORS = ",;\t";

    private Csv() {}

    /** The cells; null when the quotes are not in order with that separator. */
    static @Nullable List<String> cells(String row, char separator) {
        CSVFormat format = CSVFormat.RFC4180.builder().setDelimiter(separator).get();
        try (CSVParser parser = CSVParser.parse(row, format)) {
            List<CSVRecord> records = parser.getRecords();
            return records.isEmpty()
                    ? List.of()
                    : records.get(0).stream().map(String::strip).toList();
        } catch (IOException | UncheckedIOException e) {
            // The text is in memory: what the library tells by its exceptions is bad syntax.
            return null;
        }
    }
}
