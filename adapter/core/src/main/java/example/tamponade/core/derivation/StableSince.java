package example.tamponade.core.derivation;

import java.time.Instant;
import java.util.Collection;
import java.util.Comparator;
import java.util.stream.Stream;

/**
 * Since when a woman with a balloon in place is stable = the latest of bleeding control and everything that disturbed it.
 * How long that is, {@link Interval} says.
 *
 * <p>Source: common practice, no source.
 */
public final class StableSince {

    private StableSince() {}

    /**
     * The latest of the times.
     *
     * @param controlled when bleeding was controlled
     * @param disturbances times of active bleeding, a rise of the fundus and abnormal signs, in any order; none is possible
     */
    public static Instant of(Instant controlled, Collection<Instant> disturbances) {
        return Stream.concat(Stream.of(controlled), disturbances.stream())
                .max(Comparator.naturalOrder())
                .orElse(controlled);
    }
}
