package example.tamponade.core.casefile;

import java.time.OffsetDateTime;
import org.pcollections.HashTreePMap;
import org.pcollections.PMap;

/**
 * What is on record of the signs by which stability under a balloon is judged.
 *
 * @param last when each was looked at last, or when bleeding was controlled
 * @param gaps when each was looked at again after too long a time, the latest such time
 */
record StabilityState(PMap<StableSign, OffsetDateTime> last, PMap<StableSign, OffsetDateTime> gaps) {

    static final StabilityState NONE = new StabilityState(HashTreePMap.empty(), HashTreePMap.empty());

    /** Stability begins: each sign counts from then. */
    static StabilityState from(OffsetDateTime begin) {
        StabilityState state = NONE;
        for (StableSign sign : StableSign.values()) {
            state = state.checked(sign, begin);
        }
        return state;
    }

    StabilityState checked(StableSign sign, OffsetDateTime at) {
        return new StabilityState(last.plus(sign, at), gaps);
    }

    StabilityState checkedAfterAGap(StableSign sign, OffsetDateTime at) {
        return new StabilityState(last.plus(sign, at), gaps.plus(sign, at));
    }
}
