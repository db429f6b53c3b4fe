package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.CaseFact;
import example.tamponade.core.casefile.FactInput;
import example.tamponade.core.casefile.IssueKind;
import example.tamponade.core.casefile.Reading;
import example.tamponade.core.casefile.RecordIssue;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.LossMethod;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.core.protocol.Setting;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What is doubtful about the resources of one event.
 *
 * @param marks each doubt, for one resource of the event or for all
 */
record Marks(List<Mark> marks) {

    /**
     * One doubt.
     *
     * @param code code of the data-quality code system
     * @param role the resource it is about; absent when it is about all
     */
    private record Mark(String code, @Nullable String role) {}

    /** The doubts that the event's own times and method raise, and those that the case file found. */
    static Marks of(EventEnvelope event, List<CaseFact> facts, CareProtocol protocol) {
        List<Mark> marks = new ArrayList<>();
        Duration lag = Duration.between(event.occurredAt(), event.recordedAt());
        if (lag.compareTo(protocol.duration(Setting.LATE_ENTRY_AFTER)) > 0) {
            marks.add(new Mark("late-entry", null));
        }
        if (event.data() instanceof BloodLoss loss && loss.method() == LossMethod.VISUAL) {
            marks.add(new Mark("visual-estimate", Reading.BLOOD_LOSS.code()));
        }
        for (CaseFact fact : facts) {
            if (fact instanceof RecordIssue issue) {
                marks.add(new Mark(code(issue.kind()), role(issue)));
            }
        }
        return new Marks(List.copyOf(marks));
    }

    /** The codes for one resource of the event, each once. */
    List<String> of(String role) {
        return marks.stream()
                .filter(it -> it.role() == null || it.role().equals(role))
                .map(Mark::code)
                .distinct()
                .toList();
    }

    private static String code(IssueKind kind) {
        if (kind == IssueKind.IMPLAUSIBLE_VALUE || kind == IssueKind.CLOCK_DOUBT) {
            return kind.code();
        }
        return "inconsistent-with-case";
    }

    private static @Nullable String role(RecordIssue issue) {
        if (issue.kind() == IssueKind.IMPLAUSIBLE_VALUE) {
            return EventProperties.roleOf(issue.key().part());
        }
        return issue.implicated().get(0) instanceof FactInput.OfEvent of && of.reading() != Reading.EVENT
                ? of.reading().code()
                : null;
    }
}
