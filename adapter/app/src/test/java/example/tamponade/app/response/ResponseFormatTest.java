package example.tamponade.app.response;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Formats;
import example.tamponade.app.SampleCases;
import example.tamponade.app.Samples;
import example.tamponade.app.intake.Piece;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.terms.EventForm;
import java.util.List;
import org.junit.jupiter.api.Test;

class ResponseFormatTest {

    private static final ResponseFormat FORMAT = new ResponseFormat(EventForm.read(), Formats.EVENTS);

    @Test
    void theCaseOnFormsGivesTheFactsOfTheCaseAsEvents() {
        List<Piece> pieces = Formats.pieces(FORMAT, Samples.bytes("response/settled.ndjson"));
        List<EventEnvelope> events = Formats.events(pieces);

        assertThat(events).containsExactlyInAnyOrderElementsOf(SampleCases.events("settled"));
        CaseFile file = CaseFile.of(
                "FGL-2026-0117",
                CareProtocol.standard(),
                events.stream().filter(it -> it.caseId() != null).toList());
        assertThat(file.facts()).isEqualTo(SampleCases.file("settled").facts());
    }
}
