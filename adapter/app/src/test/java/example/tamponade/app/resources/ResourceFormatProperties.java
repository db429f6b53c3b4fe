package example.tamponade.app.resources;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Formats;
import example.tamponade.app.Samples;
import example.tamponade.app.intake.EventFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.observation.ObservationFormat;
import example.tamponade.app.response.ResponseFormat;
import example.tamponade.fhir.terms.EventForm;
import example.tamponade.fhir.terms.Terms;
import java.nio.charset.StandardCharsets;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

/** Whatever the bytes are, pieces come out, and what a piece keeps is the same piece again. */
class ResourceFormatProperties {

    private static final EventForm FORM = EventForm.read();
    private static final List<EventFormat> FORMATS = List.of(
            new ResponseFormat(FORM, Formats.EVENTS), new ObservationFormat(Terms.read(), FORM, Formats.EVENTS));
    private static final List<String> SEEDS = List.of(text("response/two-events.json"), text("observation/plain.json"));

    @Property(tries = 300)
    void anyBytesComeOutAsPieces(@ForAll byte[] input) {
        FORMATS.forEach(it -> check(it, input));
    }

    @Property(tries = 200)
    void anythingChangedInASampleComesOutAsPieces(@ForAll("changed") String input) {
        FORMATS.forEach(it -> check(it, input.getBytes(StandardCharsets.UTF_8)));
    }

    @Provide
    Arbitrary<String> changed() {
        Arbitrary<String> put = Arbitraries.of(
                "",
                "\"",
                "{",
                "}",
                "[",
                "]",
                ":",
                ",",
                "null",
                "1e999999999",
                "-0",
                "[[]]",
                "{\"a\":{}}",
                "\u0000",
                "\n",
                "é",
                "\"\"",
                "true",
                "\"resourceType\":\"Bundle\",",
                "\"contained\":[{}],",
                "\"id\":\"x\",",
                "\"value\":{},");
        return Combinators.combine(
                        Arbitraries.of(SEEDS),
                        Arbitraries.doubles().between(0, 1),
                        Arbitraries.integers().between(0, 12),
                        put)
                .as((seed, where, length, text) -> {
                    int from = (int) (where * (seed.length() - 1));
                    return seed.substring(0, from) + text + seed.substring(Math.min(seed.length(), from + length));
                });
    }

    private static void check(EventFormat format, byte[] input) {
        for (Piece piece : Formats.pieces(format, input)) {
            List<Piece> again = Formats.pieces(format, piece.original().bytes());
            if (piece.intake() instanceof Intake.Taken) {
                assertThat(again).extracting(Piece::intake).containsExactly(piece.intake());
            } else {
                assertThat(Formats.reasons(piece)).isNotEmpty();
                assertThat(again).anyMatch(it -> it.intake() instanceof Intake.Refused);
            }
        }
    }

    private static String text(String sample) {
        return new String(Samples.bytes(sample), StandardCharsets.UTF_8);
    }
}
