package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.math.BigDecimal;

/**
 * Stage of acute kidney injury by urine output alone: 1 and 2 by how long the output has been low, 3 by how long it has
 * been very low or none. Creatinine, the other half of the staging, is not looked at.
 *
 * <p>Each stage begins with its time: low for exactly 6 h is stage 1. Where nothing was collected the times are 0 and
 * there is no stage.
 *
 * <p>Source: KDIGO Clinical Practice Guideline for Acute Kidney Injury, 2012.
 */
public enum UrineStage implements Coded {
    /** Not staged. */
    NONE,
    /** Low for a time. */
    STAGE_1,
    /** Low for longer. */
    STAGE_2,
    /** Very low for long, or no urine. */
    STAGE_3;

    /**
     * From how long a stage holds, min; from the care protocol.
     *
     * @param stage1From time of low output
     * @param stage2From time of low output
     * @param stage3From time of very low output
     * @param withoutUrineFrom time without urine that is stage 3 too
     */
    public record Limits(
            BigDecimal stage1From, BigDecimal stage2From, BigDecimal stage3From, BigDecimal withoutUrineFrom) {}

    /**
     * The stage.
     *
     * @param lowMin time of low output, min
     * @param veryLowMin time of very low output, min
     * @param withoutUrineMin time without urine, min
     * @param limits where each stage begins
     */
    public static UrineStage of(BigDecimal lowMin, BigDecimal veryLowMin, BigDecimal withoutUrineMin, Limits limits) {
        if (reached(veryLowMin, limits.stage3From()) || reached(withoutUrineMin, limits.withoutUrineFrom())) {
            return STAGE_3;
        }
        if (reached(lowMin, limits.stage2From())) {
            return STAGE_2;
        }
        return reached(lowMin, limits.stage1From()) ? STAGE_1 : NONE;
    }

    private static boolean reached(BigDecimal minutes, BigDecimal from) {
        return minutes.compareTo(from) >= 0;
    }
}
