package example.tamponade.core.casefile;

import java.time.OffsetDateTime;
import java.util.List;

/**
 * A doubt about what was recorded. The record is kept as it came; the doubt stands beside it.
 *
 * @param key which issue it is
 * @param kind what is doubtful
 * @param severity how much it weighs
 * @param at when the doubtful thing happened
 * @param detail what is doubtful, in words with the values
 * @param implicated what was recorded; at least one
 */
public record RecordIssue(
        FactKey key, IssueKind kind, Severity severity, OffsetDateTime at, String detail, List<FactInput> implicated)
        implements CaseFact {

    public RecordIssue {
        implicated = List.copyOf(implicated);
    }
}
