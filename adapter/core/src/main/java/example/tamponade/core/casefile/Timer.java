package example.tamponade.core.casefile;

import java.time.OffsetDateTime;

/**
 * A flag that time alone brings, unless an event calls it off before.
 *
 * @param due from when the flag stands
 * @param flag the flag as it will stand
 */
record Timer(OffsetDateTime due, Flag flag) {}
