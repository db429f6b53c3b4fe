package example.tamponade.core.casefile;

import java.time.OffsetDateTime;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.pcollections.HashTreePMap;
import org.pcollections.PMap;
import org.pcollections.PVector;
import org.pcollections.TreePVector;

/**
 * What is known of a case after one of its events.
 *
 * @param opening the event that opened the case; absent before it
 * @param recognition the latest event by which the haemorrhage was recognised; absent before it
 * @param closedAt when the case was closed; absent while it is open
 * @param loss blood loss
 * @param vitals vital signs
 * @param tamponades each insertion, in order
 * @param openFlags flags that stand, by kind
 */
record CaseState(
        @Nullable UUID opening,
        @Nullable UUID recognition,
        @Nullable OffsetDateTime closedAt,
        LossState loss,
        VitalsState vitals,
        PVector<Tamponade> tamponades,
        PMap<String, Flag> openFlags) {

    static final CaseState EMPTY = new CaseState(
            null, null, null, LossState.NONE, VitalsState.NONE, TreePVector.empty(), HashTreePMap.empty());
}
