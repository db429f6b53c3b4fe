package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.FactKey;
import example.tamponade.core.casefile.IssueKind;
import example.tamponade.core.casefile.RecordIssue;
import example.tamponade.core.casefile.Severity;
import example.tamponade.core.event.EventEnvelope;
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

    // Nothing of the event's own words and values is repeated: one of them may be what cannot be told.
    static DetectedIssue ofSetAside(EventEnvelope event, CaseScope scope) {
        FactKey key = FactKey.of(IssueKind.EVENT_SET_ASIDE, event.eventId());
        DetectedIssue issue = new DetectedIssue();
        issue.setStatus(DetectedIssue.DetectedIssueStatus.FINAL);
        issue.setCode(scope.terms.local("record-issue", key.code()));
        issue.setSeverity(DetectedIssue.DetectedIssueSeverity.HIGH);
        issue.setPatient(scope.mother());
        issue.setIdentified(
                Times.dateTime(scope.standingOrElseWithdrawn().get(0).event.occurredAt()));
        issue.setAuthor(scope.software());
        issue.addImplicated(ProvenanceMapper.recordedAs(event.eventId()));
        String detail = "event " + event.eventId() + " (" + ProvenanceMapper.type(event) + ") is not on record:"
                + " look for it in quarantine";
        issue.setDetail(detail);
        List<String> lines = List.of(
                issue.getCode().getText() + ": " + detail + ".",
                "What it says is missing from every value and warning of this case. " + CaseMapper.CAUTION);
        scope.frame.on(issue, scope.ids.of(key), "record-issue", lines);
        scope.frame.source(issue, event.eventId());
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
