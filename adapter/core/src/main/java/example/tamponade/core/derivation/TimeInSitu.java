package example.tamponade.core.derivation;

import java.time.Instant;

/**
 * Time in situ = until - inserted, min, shown without decimals. Instants, not local times: a clock change in between does
 * not lengthen it.
 *
 * <p>Source: common practice, no source.
 */
public final class TimeInSitu {

    private TimeInSitu() {}

    /**
     * The minutes between two instants.
     *
     * @param inserted when the device was placed
     * @param until when it was removed, or up to when the time is asked; not before {@code inserted}
     */
    public static FactValue.Amount between(Instant inserted, Instant until) {
        return Interval.between(inserted, until);
    }
}
