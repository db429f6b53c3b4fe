package example.tamponade.fhir.refusal;

import example.tamponade.fhir.terms.Narratives;
import example.tamponade.fhir.terms.Terms;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.OperationOutcome;

/** Makes an OperationOutcome of refusals. Safe for several threads. */
public final class Refusals {

    private static final Map<String, OperationOutcome.IssueType> TYPES = Map.ofEntries(
            Map.entry("malformed-json", OperationOutcome.IssueType.STRUCTURE),
            Map.entry("not-an-object", OperationOutcome.IssueType.STRUCTURE),
            Map.entry("wrong-encoding", OperationOutcome.IssueType.STRUCTURE),
            Map.entry("empty-input", OperationOutcome.IssueType.STRUCTURE),
            Map.entry("unknown-property", OperationOutcome.IssueType.STRUCTURE),
            Map.entry("wrong-type", OperationOutcome.IssueType.STRUCTURE),
            Map.entry("unknown-type", OperationOutcome.IssueType.NOTSUPPORTED),
            Map.entry("missing-property", OperationOutcome.IssueType.REQUIRED),
            Map.entry("not-in-list", OperationOutcome.IssueType.CODEINVALID),
            Map.entry("wrong-unit", OperationOutcome.IssueType.VALUE),
            Map.entry("time-without-offset", OperationOutcome.IssueType.VALUE),
            Map.entry("impossible-value", OperationOutcome.IssueType.VALUE),
            Map.entry("invalid-value", OperationOutcome.IssueType.VALUE),
            Map.entry("too-long", OperationOutcome.IssueType.TOOLONG),
            Map.entry("conflict", OperationOutcome.IssueType.CONFLICT),
            Map.entry("not-permitted", OperationOutcome.IssueType.FORBIDDEN),
            Map.entry("adapter-fault", OperationOutcome.IssueType.EXCEPTION));

    private final Terms terms;

    /**
     * Names refusals by these terms.
     *
     * @param terms the code systems
     */
    public Refusals(Terms terms) {
        this.terms = terms;
    }

    /**
     * The outcome, one issue a refusal in the order given.
     *
     * @param refusals at least one
     * @throws IllegalArgumentException when there is none, or a code is not of the refusal code system
     */
    public OperationOutcome toOutcome(List<Refusal> refusals) {
        if (refusals.isEmpty()) {
            throw new IllegalArgumentException("an outcome needs a refusal");
        }
        OperationOutcome outcome = new OperationOutcome();
        outcome.getMeta().addProfile(terms.profile("refusal"));
        refusals.forEach(it -> outcome.addIssue(issue(it)));
        outcome.setText(Narratives.listOf(refusals.stream()
                .map(it -> it.expression() + ": " + it.message() + "; " + it.remedy())
                .toList()));
        return outcome;
    }

    private OperationOutcome.OperationOutcomeIssueComponent issue(Refusal refusal) {
        Coding code = terms.coding(terms.system("refusal"), refusal.code());
        return new OperationOutcome.OperationOutcomeIssueComponent()
                .setSeverity(severity(refusal.severity()))
                .setCode(TYPES.getOrDefault(refusal.code(), OperationOutcome.IssueType.INVALID))
                .setDetails(new CodeableConcept(code).setText(refusal.message()))
                .setDiagnostics(refusal.remedy())
                .addExpression(refusal.expression());
    }

    private static OperationOutcome.IssueSeverity severity(Refusal.Severity severity) {
        return switch (severity) {
            case FATAL -> OperationOutcome.IssueSeverity.FATAL;
            case ERROR -> OperationOutcome.IssueSeverity.ERROR;
            case WARNING -> OperationOutcome.IssueSeverity.WARNING;
        };
    }
}
