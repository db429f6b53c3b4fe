/**
 * The care protocol: every clinical limit, threshold, window and density, each with unit and source, read from one YAML
 * file that a facility may replace. Also judges whether an event's values are possible and plausible. It holds numbers,
 * not conclusions: what they mean for a case is derived elsewhere.
 */
@NullMarked
package example.tamponade.core.protocol;

import org.jspecify.annotations.NullMarked;
