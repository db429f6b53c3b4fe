package example.tamponade.fhir.refusal;

import static example.tamponade.fhir.Checks.codes;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import example.tamponade.fhir.Shared;
import example.tamponade.fhir.terms.Narratives;
import java.util.List;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RefusalsTest {

    private final Refusals refusals = new Refusals(Shared.TERMS);

    @ParameterizedTest
    @CsvSource({
        "malformed-json, structure",
        "not-an-object, structure",
        "unknown-type, not-supported",
        "unknown-property, structure",
        "missing-property, required",
        "wrong-type, structure",
        "not-in-list, code-invalid",
        "wrong-unit, value",
        "time-without-offset, value",
        "impossible-value, value",
        "too-long, too-long",
        "wrong-encoding, structure",
        "conflict, conflict",
        "empty-input, structure",
        "invalid-value, value"
    })
    void everyCodeOfTheListConformsAndHasItsIssueType(String code, String type) {
        OperationOutcome outcome = refusals.toOutcome(List.of(refusal(code)));
        assertThat(Shared.CONFORMANCE.check(outcome).problems()).isEmpty();
        assertThat(outcome.getIssueFirstRep().getCode().toCode()).isEqualTo(type);
    }

    @Test
    void eachRefusalKeepsPlaceMessageAndRemedy() {
        OperationOutcome outcome = refusals.toOutcome(List.of(
                refusal("missing-property"),
                new Refusal(
                        "wrong-unit",
                        "data.temperatureC",
                        "kPa is no unit of temperature.",
                        "Send it in Cel.",
                        Refusal.Severity.WARNING)));
        assertThat(outcome.getIssue()).hasSize(2);
        OperationOutcome.OperationOutcomeIssueComponent second =
                outcome.getIssue().get(1);
        assertThat(codes(second.getDetails())).containsExactly("refusal#wrong-unit");
        assertThat(second.getDetails().getText()).isEqualTo("kPa is no unit of temperature.");
        assertThat(second.getDiagnostics()).isEqualTo("Send it in Cel.");
        assertThat(second.getExpression().get(0).getValue()).isEqualTo("data.temperatureC");
        assertThat(second.getSeverity()).isEqualTo(OperationOutcome.IssueSeverity.WARNING);
        assertThat(Narratives.text(outcome.getText())).contains("data.temperatureC: kPa is no unit");
    }

    @Test
    void aCodeThatIsNotInTheListIsAMistakeOfTheCaller() {
        List<Refusal> unknown = List.of(refusal("no-such-code"));
        assertThrows(IllegalArgumentException.class, () -> refusals.toOutcome(unknown));
        assertThrows(IllegalArgumentException.class, () -> refusals.toOutcome(List.of()));
    }

    private static Refusal refusal(String code) {
        return new Refusal(code, "data.pulse", "The pulse is wrong.", "Send it again.", Refusal.Severity.ERROR);
    }
}
