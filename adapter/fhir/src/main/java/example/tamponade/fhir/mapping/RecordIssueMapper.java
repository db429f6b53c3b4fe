package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.FactKey;
import example.tamponade.core.casefile.IssueKind;
import example.tamponade.core.casefile.RecordIssue;
import example.tamponade.core.casefile.Severity;
import example.tamponade.core.event.EventEnvelope;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.DetectedIssue;
import org.hl7.fhir.r4.model.Reference;
import org.jspecify.annotations.Nullable;

/** A doubt about the record, beside what was recorded. */
final class RecordIssueMapper {

    // FHIR writes years with four digits.
    private static final int LAST_YEAR = 9999;

    private RecordIssueMapper() {}

    static DetectedIssue map(RecordIssue fact, CaseScope scope) {
        DetectedIssue issue = issue(fact.key(), severity(fact.severity()), scope);
        issue.setIdentified(Times.dateTime(fact.at()));
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
        DetectedIssue issue = issue(key, DetectedIssue.DetectedIssueSeverity.HIGH, scope);
        issue.setIdentified(recorded(event));
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

    private static DetectedIssue issue(FactKey key, DetectedIssue.DetectedIssueSeverity severity, CaseScope scope) {
        DetectedIssue issue = new DetectedIssue();
        issue.setStatus(DetectedIssue.DetectedIssueStatus.FINAL);
        issue.setCode(scope.terms.local("record-issue", key.code()));
        issue.setSeverity(severity);
        if (!scope.file.isOfFacility()) {
            issue.setPatient(scope.mother());
        }
        issue.setAuthor(scope.software());
        return issue;
    }

    // In UTC: its own offset may be what cannot be told. A year that cannot be told either is absent.
    private static @Nullable DateTimeType recorded(EventEnvelope event) {
        OffsetDateTime at = event.recordedAt().withOffsetSameInstant(ZoneOffset.UTC);
        return at.getYear() < 1 || at.getYear() > LAST_YEAR ? null : Times.dateTime(at);
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
