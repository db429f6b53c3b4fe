package example.tamponade.core.casefile;

import java.time.OffsetDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A warning with a begin and an end. It advises and never acts; local protocols and licensed judgement decide.
 *
 * @param key which flag it is; the anchor is the event it began at
 * @param kind what it warns of
 * @param severity how much it weighs
 * @param start when it began
 * @param knownFrom from when it could be known: its begin, or when the event that it began at was recorded, whichever is later
 * @param confirmedBy the repeated reading that confirmed it; absent before one did, and where none is asked
 * @param ending how it ended; absent while it stands
 * @param text one plain line for those at the bedside
 * @param rule the rule and the protocol value that fired it
 * @param evidence the facts behind it; at least one
 */
public record Flag(
        FactKey key,
        FlagKind kind,
        Severity severity,
        OffsetDateTime start,
        OffsetDateTime knownFrom,
        @Nullable FactInput confirmedBy,
        @Nullable Ending ending,
        String text,
        String rule,
        List<FactInput> evidence)
        implements CaseFact {

    public Flag {
        evidence = List.copyOf(evidence);
    }

    /**
     * How a flag ended.
     *
     * @param at when
     * @param reason why
     * @param by what was read or done that ended it; absent when time did, or another warning that time brought
     */
    public record Ending(
            OffsetDateTime at,
            FlagEndReason reason,
            @Nullable FactInput by) {}

    /** When it ended; null while it stands. */
    public @Nullable OffsetDateTime end() {
        return ending == null ? null : ending.at();
    }

    /** The same flag, ended. */
    Flag ended(Ending how) {
        return new Flag(key, kind, severity, start, knownFrom, confirmedBy, how, text, rule, evidence);
    }

    /** The same flag, confirmed. */
    Flag confirmed(FactInput by) {
        return new Flag(key, kind, severity, start, knownFrom, by, ending, text, rule, evidence);
    }

    /** Whether the reading behind it is still to be repeated. */
    public boolean isToBeRepeated() {
        return kind.isConfirmedByRepeat() && confirmedBy == null && ending == null;
    }
}
