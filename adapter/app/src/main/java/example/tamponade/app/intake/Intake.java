package example.tamponade.app.intake;

import example.tamponade.core.event.EventEnvelope;
import java.util.List;

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
     * @param reasons every reason found; at least one
     */
    record Refused(List<Reason> reasons) implements Intake {

        public Refused {
            reasons = List.copyOf(reasons);
        }

        /** A refusal for one reason. */
        public static Refused of(ReasonCode code, String path, String message, String remedy) {
            return new Refused(List.of(new Reason(code, path, message, remedy)));
        }
    }
}
