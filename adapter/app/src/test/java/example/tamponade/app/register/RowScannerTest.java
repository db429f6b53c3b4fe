package example.tamponade.app.register;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class RowScannerTest {

    // RFC 4180, section 2, the examples of its seven rules.
    static Stream<Arguments> examples() {
        return Stream.of(
                Arguments.of(
                        1, "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", rows(row("aaa", "bbb", "ccc"), row("zzz", "yyy", "xxx"))),
                Arguments.of(2, "aaa,bbb,ccc\r\nzzz,yyy,xxx", rows(row("aaa", "bbb", "ccc"), row("zzz", "yyy", "xxx"))),
                Arguments.of(
                        3,
                        "field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
                        rows(
                                row("field_name", "field_name", "field_name"),
                                row("aaa", "bbb", "ccc"),
                                row("zzz", "yyy", "xxx"))),
                Arguments.of(4, "aaa,bbb,ccc", rows(row("aaa", "bbb", "ccc"))),
                Arguments.of(
                        5,
                        "\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx",
                        rows(row("aaa", "bbb", "ccc"), row("zzz", "yyy", "xxx"))),
                Arguments.of(
                        6,
                        "\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx",
                        rows(row("aaa", "b\r\nbb", "ccc"), row("zzz", "yyy", "xxx"))),
                Arguments.of(7, "\"aaa\",\"b\"\"bb\",\"ccc\"", rows(row("aaa", "b\"bb", "ccc"))));
    }

    @ParameterizedTest
    @MethodSource("examples")
    void readsTheExamplesOfTheStandard(int rule, String text, List<List<String>> rows) throws IOException {
        assertThat(scanned(text)).extracting(it -> Csv.cells(it.text(), ',')).isEqualTo(rows);
    }

    @Test
    void keepsEveryByteOfTheRows() throws IOException {
        String text = "a,\"b\nc\"\r\n\n\r\nd\re,\"\"\"\"\n\"x\",y";

        StringBuilder all = new StringBuilder();
        scanned(text).forEach(it -> all.append(new String(it.original().bytes(), UTF_8)));

        assertThat(all).hasToString(text);
        assertThat(scanned(text)).extracting(Row::number).containsExactly(1L, 2L, 3L, 4L, 5L, 6L);
    }

    @Test
    void givesOnlyTheFirstLineOfARowWhoseQuoteIsNotClosed() throws IOException {
        List<Row> rows = scanned("a,\"b\nc,d\r\ne,\"f\"g\nh,i\n");

        assertThat(rows).extracting(Row::torn).containsExactly(true, false, true, false);
        assertThat(rows).extracting(Row::text).containsExactly("a,\"b\n", "c,d\r\n", "e,\"f\"g\n", "h,i\n");
    }

    private static List<Row> scanned(String text) throws IOException {
        List<Row> rows = new ArrayList<>();
        try (RowScanner scanner = new RowScanner(new ByteArrayInputStream(text.getBytes(UTF_8)))) {
            for (Row row = scanner.next(","); row != null; row = scanner.next(",")) {
                rows.add(row);
            }
        }
        return rows;
    }

    @SafeVarargs
    private static List<List<String>> rows(List<String>... rows) {
        return List.of(rows);
    }

    private static List<String> row(String... cells) {
        return List.of(cells);
    }
}
