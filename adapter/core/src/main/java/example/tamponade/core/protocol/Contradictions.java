package example.tamponade.core.protocol;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/** Which values of a care protocol contradict one another? */
final class Contradictions {

    // Each pair: the first must be below the second. All are in one unit, pair by pair.
    private static final List<List<Setting>> ORDERED = List.of(
            List.of(Setting.CRITERION_VOLUME, Setting.HAEMORRHAGE_VOLUME),
            List.of(Setting.HAEMORRHAGE_VOLUME, Setting.SEVERE_HAEMORRHAGE_VOLUME),
            List.of(Setting.SEVERE_HAEMORRHAGE_VOLUME, Setting.MASSIVE_HAEMORRHAGE_VOLUME),
            List.of(Setting.LOSS_RATE_SHORT_WINDOW, Setting.LOSS_RATE_LONG_WINDOW),
            List.of(Setting.MINIMUM_DWELL, Setting.MAXIMUM_DWELL),
            List.of(Setting.DWELL_WARNING_BEFORE, Setting.MAXIMUM_DWELL),
            List.of(Setting.STEP_MINIMUM, Setting.STEP_MAXIMUM),
            List.of(Setting.STEP_GAP, Setting.STEP_WATCH),
            List.of(Setting.FUNDUS_RISE_ENDS, Setting.FUNDUS_RISE),
            List.of(Setting.WARNING_SYSTOLIC_BELOW, Setting.WARNING_SYSTOLIC_ABOVE),
            List.of(Setting.WARNING_PULSE_BELOW, Setting.WARNING_PULSE_ABOVE),
            List.of(Setting.WARNING_RESPIRATIONS_BELOW, Setting.WARNING_RESPIRATIONS_ABOVE),
            List.of(Setting.BLOOD_VOLUME_PER_KG_OBESITY, Setting.BLOOD_VOLUME_PER_KG),
            List.of(Setting.LOSS_CLASS_I_TO, Setting.LOSS_CLASS_II_TO),
            List.of(Setting.LOSS_CLASS_II_TO, Setting.LOSS_CLASS_III_TO),
            List.of(Setting.LOSS_AFTER_INSERTION_ALERT, Setting.LOSS_AFTER_INSERTION_INVASIVE),
            List.of(Setting.LACTATE_RAISED_ABOVE, Setting.LACTATE_HIGH_ABOVE),
            List.of(Setting.HAEMOGLOBIN_KEPT_ABOVE, Setting.ANAEMIA_BELOW),
            List.of(Setting.PLATELETS_CRITICAL_BELOW, Setting.PLATELETS_GIVEN_BELOW),
            List.of(Setting.READINESS_SPEAKS_FOR, Setting.READINESS_WINDOW));

    private Contradictions() {}

    /** A line for each pair that is the wrong way round; empty when none is. */
    static List<String> of(Map<Setting, ProtocolValue> values) {
        List<String> contradictions = new ArrayList<>();
        for (List<Setting> pair : ORDERED) {
            ProtocolValue lower = Objects.requireNonNull(values.get(pair.get(0)));
            ProtocolValue upper = Objects.requireNonNull(values.get(pair.get(1)));
            if (lower.value().compareTo(upper.value()) >= 0) {
                contradictions.add("settings." + pair.get(0).code() + " " + lower.value() + " is not below settings."
                        + pair.get(1).code() + " " + upper.value() + "; change one of them");
            }
        }
        return contradictions;
    }
}
