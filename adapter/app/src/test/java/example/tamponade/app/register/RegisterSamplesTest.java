package example.tamponade.app.register;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.SampleCases;
import example.tamponade.app.Samples;
import example.tamponade.app.intake.Piece;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.CaseId;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The case from the register is the case from the events, whose results another program computed. */
class RegisterSamplesTest {

    @Test
    void theRegisterWithEventIdsHoldsTheEventsOfTheCase() {
        CaseFile file = file("settled");

        assertThat(file.facts()).isEqualTo(SampleCases.file("settled").facts());
        assertThat(file.entries()).isEqualTo(SampleCases.file("settled").entries());
    }

    @Test
    void theRegisterOfASpreadsheetGivesTheSameFacts() {
        assertThat(SampleCases.words(file("settled-spreadsheet")))
                .isEqualTo(SampleCases.words(SampleCases.file("settled")));
    }

    // As told in samples/README.md, section Register.
    @Test
    void theMessyRegisterIsTakenAndRefusedAsTold() {
        assertThat(Registers.outcomes(Registers.pieces(Samples.register("messy"))))
                .containsExactly(
                        "row 2 taken",
                        "row 3 invalid-value",
                        "row 4 invalid-value",
                        "row 5 invalid-value",
                        "row 6 invalid-value",
                        "row 7 invalid-value",
                        "row 8 invalid-value",
                        "row 9 missing-property",
                        "row 10 wrong-unit",
                        "row 11 not-in-list",
                        "row 12 unknown-property",
                        "row 13 missing-property",
                        "row 14 impossible-value",
                        "row 15 invalid-value",
                        "row 16 invalid-value",
                        "row 17 invalid-value",
                        "row 18 taken",
                        "row 19 taken",
                        "row 20 invalid-value",
                        "row 21 taken",
                        "row 22 taken",
                        "row 23 invalid-value");
    }

    private static CaseFile file(String register) {
        List<Piece> pieces = Registers.pieces(Samples.register(register));
        assertThat(Registers.taken(pieces)).hasSize(247).hasSameSizeAs(pieces);
        List<EventEnvelope> events = Registers.taken(pieces).stream()
                .filter(it -> it.caseId() != null)
                .toList();
        return CaseFile.of(new CaseId("fernglade-hp", "FGL-2026-0117"), CareProtocol.standard(), events);
    }
}
