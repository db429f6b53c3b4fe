package example.tamponade.core.casefile;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.pcollections.HashTreePMap;
import org.pcollections.PMap;

/**
 * What was derived at the instant of the last event. Events of one instant have one fact of a kind, that after all of them.
 *
 * @param at the instant
 * @param derived the facts so far, by kind and insertion
 */
record InstantState(Instant at, PMap<String, DerivedValue> derived) {

    static final InstantState NONE = new InstantState(Instant.MIN, HashTreePMap.empty());

    /** What is known of that instant: nothing yet when it is another. */
    InstantState of(Instant instant) {
        return at.equals(instant) ? this : new InstantState(instant, HashTreePMap.empty());
    }

    /** The fact of that kind; null when there is none yet, or when every reading has its own. */
    @Nullable
    DerivedValue of(FactKind kind, @Nullable UUID tamponade) {
        return kind.isOfOneReading() ? null : derived.get(slot(kind, tamponade));
    }

    InstantState with(DerivedValue fact) {
        return new InstantState(at, derived.plus(slot(fact.kind(), fact.tamponade()), fact));
    }

    private static String slot(FactKind kind, @Nullable UUID tamponade) {
        return kind.code() + "/" + tamponade;
    }
}
