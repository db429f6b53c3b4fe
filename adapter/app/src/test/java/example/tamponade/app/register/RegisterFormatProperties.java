package example.tamponade.app.register;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Reason;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class RegisterFormatProperties {

    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    @Property(tries = 500)
    void anEventWrittenAsARowComesBack(@ForAll("lines") String line, @ForAll("separators") char separator) {
        Map<String, String> cells = new TreeMap<>();
        flatten(MAPPER.readTree(line), "", cells, separator != ',');
        String register = quoted(cells.keySet(), separator) + "\r\n" + quoted(cells.values(), separator);

        assertThat(Registers.taken(Registers.pieces(register)))
                .containsExactly(((Intake.Taken) Registers.READER.read(Original.of(line.getBytes(UTF_8)))).event());
    }

    @Property(tries = 500)
    void anyBytesArePiecesThatReadTheSameAgain(@ForAll("registers") byte[] register) {
        for (Piece piece : Registers.pieces(register)) {
            List<Piece> again = Registers.pieces(piece.original().bytes());

            assertThat(again).hasSize(1);
            assertThat(words(again.get(0).intake())).isEqualTo(words(piece.intake()));
        }
    }

    // Found by the property above: between semicolons the quotes are in order, between commas they are not.
    @Example
    void aHeaderWithQuotesOfAnotherSeparatorIsRefusedWhole() {
        assertThat(Registers.pieces("\"a,\";b,c,d\r\n1,2,3\r\n"))
                .singleElement()
                .satisfies(it -> assertThat(words(it.intake())).contains("closing quote"))
                .satisfies(it -> assertThat(it.original().length()).isEqualTo(19));
    }

    @Provide
    Arbitrary<String> lines() {
        return Arbitraries.of(Samples.CASES.stream()
                .flatMap(it -> new String(Samples.events(it), UTF_8).lines())
                .filter(it -> Registers.READER.read(Original.of(it.getBytes(UTF_8))) instanceof Intake.Taken)
                .toList());
    }

    @Provide
    Arbitrary<Character> separators() {
        return Arbitraries.of(',', ';', '\t');
    }

    @Provide
    Arbitrary<byte[]> registers() {
        Arbitrary<String> parts = Arbitraries.frequencyOf(
                Tuple.of(3, Arbitraries.of("\"", ",", ";", "\n", "\r", "\r\n", "|", "\uFEFF", "sep=;", "12")),
                Tuple.of(2, Arbitraries.of("note", "FGL-1", "fernglade-hp", "1.234", "#REF!", "11.02.2026")),
                Tuple.of(1, Arbitraries.strings().ofMaxLength(5)));
        Arbitrary<String> rows = parts.list().ofMaxSize(40).map(it -> String.join("", it));
        Arbitrary<byte[]> behindAHeader =
                rows.map(it -> ("entry;caseId;facilityId;type;date;volumeMl;who\r\n" + it).getBytes(UTF_8));
        return Arbitraries.oneOf(
                behindAHeader,
                rows.map(it -> it.getBytes(UTF_8)),
                Arbitraries.bytes().array(byte[].class).ofMaxSize(60));
    }

    // The place of a row in its register is not in the piece.
    private static String words(Intake intake) {
        if (intake instanceof Intake.Refused refused) {
            return refused.reasons().stream().map(Reason::message).collect(Collectors.joining("; "));
        }
        return intake.toString();
    }

    private static void flatten(JsonNode node, String name, Map<String, String> cells, boolean decimalComma) {
        if (node.isArray()) {
            node.forEach(it -> flatten(it, name, cells, decimalComma));
        } else if (node.isObject() && node.size() == 2 && node.path("value").isNumber()) {
            cells.put(
                    name,
                    number(node.path("value"), decimalComma) + " "
                            + node.path("unit").stringValue());
        } else if (node.isObject()) {
            node.propertyNames().forEach(it -> flatten(node.get(it), inner(name, it), cells, decimalComma));
        } else {
            cells.merge(
                    name,
                    node.isNumber() ? number(node, decimalComma) : node.asString(),
                    (before, next) -> before + "|" + next);
        }
    }

    private static String inner(String name, String property) {
        return switch (name) {
            case "", "data" -> property;
            case "recordedBy" -> property.equals("id") ? "recordedById" : "recordedByRole";
            default -> name + "." + property;
        };
    }

    private static String number(JsonNode number, boolean decimalComma) {
        return decimalComma ? number.toString().replace('.', ',') : number.toString();
    }

    private static String quoted(Iterable<String> cells, char separator) {
        List<String> quoted = new ArrayList<>();
        cells.forEach(it -> quoted.add("\"" + it.replace("\"", "\"\"") + "\""));
        return String.join(String.valueOf(separator), quoted);
    }
}
