package example.tamponade.app.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/** The patterns of the published schema: what they say of a register's URI, and that no text is too long for them. */
class SchemaPatternsTest {

    private static final int LONG = 300_000;
    private static final List<String> BEGINNINGS =
            List.of("", "https://a/", "urn:oid:1.2", "urn:example:", "2026-02-11T18:41:00+");
    private static final List<String> PARTS = List.of("a", "1", " ", "-", ".1", "%41", "/a", "-0000");

    // A group that is repeated by recursion ends the reading of an event with an overflow of the stack.
    @ParameterizedTest
    @MethodSource("patterns")
    void noTextIsTooLong(Pattern pattern) {
        for (String beginning : BEGINNINGS) {
            for (String part : PARTS) {
                String text = beginning + part.repeat(LONG / part.length());
                assertThat(pattern.matcher(text).find()).isIn(true, false);
            }
        }
    }

    static Stream<Pattern> patterns() {
        List<Pattern> all = EventSchema.ROOT.findValues("pattern").stream()
                .filter(JsonNode::isString)
                .map(it -> Pattern.compile(it.asString()))
                .toList();
        assertThat(all).hasSizeGreaterThan(5);
        return all.stream();
    }

    // RFC 3986 (section 2.1: a percent sign and two hexadecimal digits), RFC 3061 (arcs without leading zeros), RFC
    // 8141.
    @ParameterizedTest
    @ValueSource(
            strings = {
                "https://reg.example",
                "https://reg.example:8080/a/b?c=d%20e",
                "http://reg.example/",
                "urn:oid:1.2.840.0.10",
                "urn:uuid:6f0d7a7c-3c1e-4d51-9a55-0a1b2c3d4e5f",
                "urn:example:register:ward%2F2"
            })
    void takesAUri(String uri) {
        assertThat(uri).matches(ofTheRegister());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "https://reg.example/%2",
                "https://reg.example/%zz",
                "https://reg.example/a b",
                "https://reg.example:port/",
                "urn:oid:3.1",
                "urn:oid:1",
                "urn:oid:1..2",
                "urn:oid:1.2.",
                "urn:oid:1.02",
                "urn:uuid:1",
                "urn:example:",
                "urn:example:a%4",
                "mailto:a@reg.example"
            })
    void refusesWhatIsNone(String uri) {
        assertThat(uri).doesNotMatch(ofTheRegister());
    }

    private static Pattern ofTheRegister() {
        return patterns()
                .filter(it -> it.pattern().contains("https?"))
                .findFirst()
                .orElseThrow();
    }
}
