package example.tamponade.core.derivation;

import java.math.BigDecimal;
import java.time.Instant;

/**
 * A volume at a time: blood lost, or fluid let out of a balloon.
 *
 * @param at when
 * @param volumeMl how much, mL, for example 80
 */
public record TimedVolume(Instant at, BigDecimal volumeMl) {}
