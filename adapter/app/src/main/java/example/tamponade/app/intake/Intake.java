package example.tamponade.app.intake;

import example.tamponade.core.event.EventEnvelope;
import java.util.List;
import java.util.function.Supplier;
import org.slf4j.LoggerFactory;

/** What became of one event that was handed in. */
public sealed interface Intake {

    /**
     * The event can be taken.
     *
     * @param event the typed event
     * @param payload its JSON text: as it came or, from another format, as it was put together
     * @param digest SHA-256 of the bytes that came, lower-case hex
     */
    record Taken(EventEnvelope event, String payload, String digest) implements Intake {}

    /**
     * The event cannot be taken.
     *
     * @param reasons every reason found; at least one. Of very many the first, and how many more there are
     */
    record Refused(List<Reason> reasons) implements Intake {

        public Refused {
            reasons = Reason.bounded(reasons);
        }

        /** A refusal for one reason. */
        public static Refused of(ReasonCode code, String path, String message, String remedy) {
            return new Refused(List.of(new Reason(code, path, message, remedy)));
        }

        /** An event that is in the ledger and that this software fails to put on record. */
        public static Refused notOnRecord(String why) {
            return of(
                    ReasonCode.ADAPTER_FAULT,
                    "",
                    "the event is in the ledger, but the adapter failed to put it on record: " + why,
                    "report it; it is tried again after an update. Until then send an event that corrects it, in"
                            + " simpler form");
        }
    }

    /**
     * What an event is read as. Should this software fail at it, the event is refused like any other, so that it is kept and
     * what came with it is read.
     */
    static Intake guarded(Supplier<Intake> reading) {
        try {
            return reading.get();
        } catch (RuntimeException | StackOverflowError e) {
            FaultLog.error(LoggerFactory.getLogger(Intake.class), "an event could not be read; please report this", e);
            return Refused.of(
                    ReasonCode.ADAPTER_FAULT,
                    "",
                    "the adapter failed to read it; that is a fault of the adapter",
                    "it is kept in quarantine: report it, and send it again in simpler form or after an update");
        }
    }
}
