package example.tamponade.app.message;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.SampleCases;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.Flag;
import example.tamponade.core.event.CaseId;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The case {@code settled} as 104 messages comes to what its 247 lines of JSON come to. */
class SettledMessagesTest {

    private static final CaseFile LINES = SampleCases.file("settled");
    private static final List<Piece> PIECES = Messages.pieces(Messages.sample("settled.hl7"));

    @Test
    void everyGroupIsAnEvent() {
        assertThat(PIECES).hasSize(247).allSatisfy(it -> assertThat(it.intake()).isInstanceOf(Intake.Taken.class));
        assertThat(PIECES.stream()
                        .map(it -> ((Intake.Taken) it.intake()).event().eventId()))
                .doesNotHaveDuplicates();
    }

    @Test
    void theSameFactsAreDerived() {
        CaseFile messages = CaseFile.of(new CaseId("fernglade-hp", "FGL-2026-0117"), CareProtocol.standard(), ofCase());

        assertThat(values(messages)).isEqualTo(values(LINES)).hasSizeGreaterThan(400);
        assertThat(flags(messages)).isEqualTo(flags(LINES)).isNotEmpty();
    }

    @Test
    void theSameDataIsReadFromEachGroup() {
        assertThat(ofCase().stream().map(it -> it.occurredAt() + " " + it.recordedBy() + " " + it.data()))
                .containsExactlyInAnyOrderElementsOf(LINES.entries().stream()
                        .map(it -> it.event().occurredAt() + " " + it.event().recordedBy() + " "
                                + it.event().data())
                        .toList());
    }

    private static List<EventEnvelope> ofCase() {
        return PIECES.stream()
                .map(it -> ((Intake.Taken) it.intake()).event())
                .filter(it -> it.caseId() != null)
                .toList();
    }

    private static List<String> values(CaseFile file) {
        return file.facts().stream()
                .filter(DerivedValue.class::isInstance)
                .map(DerivedValue.class::cast)
                .map(it -> it.kind() + " " + it.at() + " " + it.value())
                .sorted()
                .toList();
    }

    private static List<String> flags(CaseFile file) {
        return file.facts().stream()
                .filter(Flag.class::isInstance)
                .map(Flag.class::cast)
                .map(it -> it.kind() + " " + it.start() + " " + it.end())
                .sorted()
                .toList();
    }
}
