package example.tamponade.core.casefile;

import java.time.OffsetDateTime;
import org.jspecify.annotations.Nullable;

/**
 * A flag that time alone brings, unless an event calls it off before.
 *
 * @param due from when the flag stands
 * @param flag the flag as it will stand
 * @param replaces slot of the flag that ends when this one begins, as a warning ends when what it warned of has come;
 *     absent when none does
 */
record Timer(OffsetDateTime due, Flag flag, @Nullable String replaces) {}
