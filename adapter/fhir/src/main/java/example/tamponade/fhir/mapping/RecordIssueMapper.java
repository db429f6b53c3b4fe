package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.RecordIssue;
import example.tamponade.core.casefile.Severity;
import java.util.List;
import org.hl7.fhir.r4.model.DetectedIssue;
import org.hl7.fhir.r4.model.Reference;

/** A doubt about the record, beside what was recorded. */
final class RecordIssueMapper {

    private RecordIssueMapper() {}

    static DetectedIssue map(RecordIssue fact, CaseScope scope) {
        DetectedIssue issue = new DetectedIssue();
        issue.setStatus(DetectedIssue.DetectedIssueStatus.FINAL);
        issue.setCode(scope.terms.local("record-issue", fact.kind().code()));
        issue.setSeverity(severity(fact.severity()));
        issue.setPatient(scope.mother());
        issue.setIdentified(Times.dateTime(fact.at()));
        issue.setAuthor(scope.software());
        issue.setImplicated(implicated(fact, scope));
        issue.setDetail(fact.detail());
        String line = issue.getCode().getText() + ": " + fact.detail() + ".";
        List<String> lines = List.of(
                line, Times.words(fact.at()) + ", severity " + fact.severity().code() + ".");
        scope.frame.on(issue, scope.ids.of(fact.key()), "record-issue", lines);
        FactMappers.source(issue, fact.key(), scope);
        return issue;
    }

    // Of an event that brought several resources, only the one that holds the doubtful value.
    private static List<Reference> implicated(RecordIssue fact, CaseScope scope) {
        List<Reference> all = FactMappers.implicated(fact.implicated(), scope);
        String role = EventProperties.roleOf(fact.key().part());
        if (role == null) {
            return all;
        }
        String id = role.equals(CaseMappers.MOTHER)
                ? scope.caseId(role)
                : scope.ids.of(fact.key().anchor(), role);
        List<Reference> one =
                all.stream().filter(it -> it.getReference().endsWith("/" + id)).toList();
        return one.isEmpty() ? all : one;
    }

    private static DetectedIssue.DetectedIssueSeverity severity(Severity severity) {
        return switch (severity) {
            case LOW -> DetectedIssue.DetectedIssueSeverity.LOW;
            case MODERATE -> DetectedIssue.DetectedIssueSeverity.MODERATE;
            case HIGH -> DetectedIssue.DetectedIssueSeverity.HIGH;
        };
    }
}
