package example.tamponade.core.event;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * The tamponade set kept in the facility.
 *
 * @param present whether a set is there
 * @param complete whether nothing is missing from it
 * @param lot lot number
 * @param expiry last day of use
 * @param placeReachable whether it lies where it can be reached at once
 */
public record StoredSet(
        boolean present,
        boolean complete,
        @Nullable String lot,
        @Nullable LocalDate expiry,
        boolean placeReachable) {}
