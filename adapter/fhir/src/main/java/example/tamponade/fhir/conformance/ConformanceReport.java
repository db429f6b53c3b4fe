package example.tamponade.fhir.conformance;

import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.OperationOutcome;

/**
 * What a check found.
 *
 * @param problems in the order of the resources; empty when there is nothing to say
 */
public record ConformanceReport(List<Problem> problems) {

    public ConformanceReport {
        problems = List.copyOf(problems);
    }

    /** Whether everything passed: no problem is an error. */
    public boolean passed() {
        return errors().isEmpty();
    }

    /** The problems by which a resource fails. */
    public List<Problem> errors() {
        return of(Problem.Severity.ERROR);
    }

    /** The problems that someone should look at. */
    public List<Problem> warnings() {
        return of(Problem.Severity.WARNING);
    }

    /** The report as FHIR has it; a report without problems says so. */
    public OperationOutcome toOutcome() {
        OperationOutcome outcome = new OperationOutcome();
        problems.forEach(it -> outcome.addIssue()
                .setSeverity(
                        it.severity() == Problem.Severity.ERROR
                                ? OperationOutcome.IssueSeverity.ERROR
                                : OperationOutcome.IssueSeverity.WARNING)
                .setCode(OperationOutcome.IssueType.INVALID)
                .setDetails(new CodeableConcept().setText(it.resource() + ": " + it.message()))
                .addExpression(it.expression()));
        if (problems.isEmpty()) {
            outcome.addIssue()
                    .setSeverity(OperationOutcome.IssueSeverity.INFORMATION)
                    .setCode(OperationOutcome.IssueType.INFORMATIONAL)
                    .setDetails(new CodeableConcept().setText("No problems found."));
        }
        return outcome;
    }

    private List<Problem> of(Problem.Severity severity) {
        return problems.stream().filter(it -> it.severity() == severity).toList();
    }
}
