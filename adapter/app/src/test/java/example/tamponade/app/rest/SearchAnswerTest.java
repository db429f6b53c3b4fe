package example.tamponade.app.rest;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.junit.jupiter.api.Test;

class SearchAnswerTest {

    private static Bundle answer(long waiting) {
        return new SearchAnswer("http://localhost/fhir").whole(List.of(), "http://localhost/fhir/Flag", waiting);
    }

    // That nothing is found is no sign that nothing is there while events wait.
    @Test
    void saysThatEventsWaitAndAreNotOnRecord() {
        assertThat(answer(0).getEntry()).isEmpty();
        assertThat(answer(7).getEntry()).singleElement().satisfies(it -> {
            assertThat(it.getSearch().getMode()).isEqualTo(Bundle.SearchEntryMode.OUTCOME);
            OperationOutcome.OperationOutcomeIssueComponent issue =
                    ((OperationOutcome) it.getResource()).getIssueFirstRep();
            assertThat(issue.getSeverity()).isEqualTo(OperationOutcome.IssueSeverity.WARNING);
            assertThat(issue.getDiagnostics()).contains("7 events");
        });
    }
}
