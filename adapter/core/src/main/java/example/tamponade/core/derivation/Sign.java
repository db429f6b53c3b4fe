package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import example.tamponade.core.event.Consciousness;
import java.util.EnumSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** What a rule looks at: something measured, in one fixed unit, or something seen, which has none. */
public enum Sign implements Coded {
    /** Heart rate. */
    PULSE("/min"),
    /** Systolic blood pressure. */
    SYSTOLIC("mm[Hg]"),
    /** Diastolic blood pressure. */
    DIASTOLIC("mm[Hg]"),
    /** Mean arterial pressure. */
    MEAN_ARTERIAL_PRESSURE("mm[Hg]"),
    /** Shock index. */
    SHOCK_INDEX("{ratio}"),
    /** Respiratory rate. */
    RESPIRATIONS("/min"),
    /** Oxygen saturation. */
    OXYGEN_SATURATION("%"),
    /** Body temperature. */
    TEMPERATURE("Cel"),
    /** How long the systolic pressure has been low. */
    LOW_SYSTOLIC_TIME("min"),
    /** How long the oxygen saturation has been low. */
    LOW_SATURATION_TIME("min"),
    /** How long urine has been below the limit that the rules go by. */
    LOW_URINE_TIME("min"),
    /** Urine in 24 hours. */
    URINE_IN_24_HOURS("mL"),
    /** How long she has been unconscious. */
    UNCONSCIOUS_TIME("min"),
    /** Fluid given. */
    FLUID_GIVEN("mL"),
    /** Units of blood or red cells given. */
    RED_CELL_UNITS("{count}"),
    /** Lactate in blood. */
    LACTATE("mmol/L"),
    /** Acidity of blood. */
    PH("[pH]"),
    /** Platelet count. */
    PLATELETS("10*9/L"),
    /** Creatinine. */
    CREATININE("umol/L"),
    /** Bilirubin. */
    BILIRUBIN("umol/L"),
    /** A pressure was sought and could not be heard or felt. */
    PRESSURE_UNRECORDABLE(null),
    /** Not alert: responds to voice, to pain only, or not at all. */
    NOT_ALERT(null),
    /** Responds to pain only, or not at all. */
    NO_RESPONSE_TO_VOICE(null),
    /** Agitated or confused. */
    AGITATION_OR_CONFUSION(null),
    /** Pre-eclampsia with unremitting headache or breathlessness. */
    PREECLAMPSIA_WITH_HEADACHE_OR_BREATHLESSNESS(null),
    /** The nurse or midwife is concerned. */
    NURSE_CONCERN(null),
    /** Pain out of proportion. */
    PAIN_OUT_OF_PROPORTION(null),
    /** Hysterectomy for haemorrhage or infection. */
    HYSTERECTOMY(null),
    /** Infusion of a medicine that raises the pressure. */
    VASOACTIVE_INFUSION(null),
    /** Cardiopulmonary resuscitation. */
    RESUSCITATION(null),
    /** Blood does not clot. */
    FAILURE_TO_CLOT(null);

    private final @Nullable String unit;

    Sign(@Nullable String unit) {
        this.unit = unit;
    }

    /** The UCUM unit of what is measured; absent for what is seen. */
    public @Nullable String unit() {
        return unit;
    }

    /** Whether it has a number. */
    public boolean measured() {
        return unit != null;
    }

    /** What a level of consciousness shows. */
    public static Set<Sign> of(Consciousness level) {
        return switch (level) {
            case A -> EnumSet.noneOf(Sign.class);
            case V -> EnumSet.of(NOT_ALERT);
            case P, U -> EnumSet.of(NOT_ALERT, NO_RESPONSE_TO_VOICE);
        };
    }
}
