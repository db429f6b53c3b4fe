package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;

/**
 * The criteria of a maternal near miss that bedside records can show. They are WHO's definition and no setting of a facility,
 * so that counts can be compared.
 *
 * <p>Source: as {@link NearMiss}.
 */
public enum NearMissCriterion implements Coded {
    /** Five or more units of blood or red cells. */
    TRANSFUSION(at(Sign.RED_CELL_UNITS, Comparison.AT_LEAST, 5)),
    /** Systolic pressure below 90 for an hour and pulse of 120 or more, despite more than 2 L of fluid. */
    SHOCK(
            at(Sign.LOW_SYSTOLIC_TIME, Comparison.AT_LEAST, 60),
            at(Sign.PULSE, Comparison.AT_LEAST, 120),
            at(Sign.FLUID_GIVEN, Comparison.ABOVE, 2000)),
    /** Less than 30 mL/h of urine for four hours. */
    OLIGURIA(at(Sign.LOW_URINE_TIME, Comparison.AT_LEAST, 240)),
    /** More than 40 breaths a minute. */
    FAST_BREATHING(at(Sign.RESPIRATIONS, Comparison.ABOVE, 40)),
    /** Fewer than 6 breaths a minute. */
    SLOW_BREATHING(at(Sign.RESPIRATIONS, Comparison.BELOW, 6)),
    /** Saturation below 90 % for an hour. */
    HYPOXAEMIA(at(Sign.LOW_SATURATION_TIME, Comparison.AT_LEAST, 60)),
    /** Lactate above 5 mmol/L. */
    LACTATE(at(Sign.LACTATE, Comparison.ABOVE, 5)),
    /** Platelets below 50 x 10^9/L. */
    THROMBOCYTOPENIA(at(Sign.PLATELETS, Comparison.BELOW, 50)),
    /** Unconscious for twelve hours. */
    UNCONSCIOUSNESS(at(Sign.UNCONSCIOUS_TIME, Comparison.AT_LEAST, 720)),
    /** Blood that does not clot. */
    FAILURE_TO_CLOT(new SignRule.Seen(Sign.FAILURE_TO_CLOT));

    private final List<SignRule> rules;

    NearMissCriterion(SignRule... rules) {
        this.rules = List.of(rules);
    }

    private static SignRule at(Sign sign, Comparison comparison, int limit) {
        return new SignRule.Limit(sign, comparison, BigDecimal.valueOf(limit));
    }

    /** What must all fire. */
    public List<SignRule> rules() {
        return rules;
    }

    /** The criteria that these readings meet. */
    public static List<NearMissCriterion> met(Readings readings) {
        List<NearMiss.Criterion> all = Arrays.stream(values())
                .map(it -> new NearMiss.Criterion(it.code(), it.rules))
                .toList();
        List<String> codes = NearMiss.met(readings, all).stream()
                .map(it -> it.criterion().code())
                .toList();
        return Arrays.stream(values()).filter(it -> codes.contains(it.code())).toList();
    }
}
