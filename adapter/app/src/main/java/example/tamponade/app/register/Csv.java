package example.tamponade.app.register;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/** The cells of one row of CSV, whose quotes are known to be in order. */
final class Csv {

    /** What can stand between cells. */
    static final String SEPARATORS = ",;\t";

    private Csv() {}

    static List<String> cells(String row, char separator) {
        CSVFormat format = CSVFormat.RFC4180.builder().setDelimiter(separator).get();
        try (CSVParser parser = CSVParser.parse(row, format)) {
            List<CSVRecord> records = parser.getRecords();
            return records.isEmpty()
                    ? List.of()
                    : records.get(0).stream().map(String::strip).toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
