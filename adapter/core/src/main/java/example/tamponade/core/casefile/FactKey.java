package example.tamponade.core.casefile;

import example.tamponade.core.event.Coded;
import java.util.UUID;

/**
 * Which fact of a case is meant: the same key means the same fact through every replay and correction.
 *
 * @param code what the fact is about
 * @param anchor the event it hangs on, by the id that the event was first recorded under
 * @param part which of several alike; empty when there is one
 */
public record FactKey(String code, UUID anchor, String part) {

    /** The only fact of that kind at that event. */
    public static FactKey of(Coded kind, UUID anchor) {
        return new FactKey(kind.code(), anchor, "");
    }

    /** One of several facts of that kind at that event. */
    public static FactKey of(Coded kind, UUID anchor, String part) {
        return new FactKey(kind.code(), anchor, part);
    }
}
