package example.tamponade.app.quarantine;

import example.tamponade.app.database.Instants;
import example.tamponade.app.intake.Reason;
import example.tamponade.core.event.Coded;
import java.time.Instant;
import java.util.List;
import java.util.Map;

/**
 * One step of what became of something refused.
 *
 * @param at when, ISO 8601 in UTC
 * @param who who did it; {@code adapter} for the refusal itself
 * @param what what was done
 * @param note words to it: the ids of the events that were taken, or why it was set aside
 * @param content what was sent as a correction; empty for other steps
 * @param reasons why it was refused, each as {@code Reason.inJson}; empty when it was not
 */
public record QuarantineStep(
        String at, String who, What what, String note, KeptBytes content, List<Map<String, String>> reasons) {

    /** Who did what nobody asked for. */
    public static final String ADAPTER = "adapter";

    static QuarantineStep refusal(Refusal refusal) {
        return new QuarantineStep(
                Instants.text(refusal.receivedAt()),
                ADAPTER,
                What.REFUSED,
                "",
                KeptBytes.NONE,
                refusal.reasons().stream().map(Reason::inJson).toList());
    }

    static QuarantineStep putOnRecord(Instant at) {
        return new QuarantineStep(Instants.text(at), ADAPTER, What.PUT_ON_RECORD, "", KeptBytes.NONE, List.of());
    }

    /** What can be done. */
    public enum What implements Coded {
        /** It came and was refused. */
        REFUSED,
        /** A correction was sent and refused too. */
        CORRECTION_REFUSED,
        /** A correction was sent and taken. */
        CORRECTION_TAKEN,
        /** It was set aside. */
        SET_ASIDE,
        /** An event of the ledger that the adapter had failed to put on record was put there after all. */
        PUT_ON_RECORD
    }
}
