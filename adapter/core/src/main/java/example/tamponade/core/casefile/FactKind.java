package example.tamponade.core.casefile;

import example.tamponade.core.event.Coded;

/** What a derived value is about. */
public enum FactKind implements Coded {
    /** The blood in one reading, mL. */
    BLOOD_LOSS_OF_READING,
    /** Everything lost so far, mL. */
    CUMULATIVE_BLOOD_LOSS,
    /** Heart rate by systolic pressure. */
    SHOCK_INDEX,
    /** Mean arterial pressure, mm[Hg]. */
    MEAN_ARTERIAL_PRESSURE,
    /** Systolic minus diastolic pressure, mm[Hg]. */
    PULSE_PRESSURE,
    /** Fluid in the chamber inside the uterus, mL. */
    TAMPONADE_CHAMBER_VOLUME,
    /** Fluid in the chamber in the vagina, mL. */
    RETENTION_CHAMBER_VOLUME,
    /** How long the device has been in place, min. */
    TIME_IN_SITU,
    /** Loss in the short window, mL/h. */
    BLOOD_LOSS_RATE_SHORT,
    /** Loss in the long window, mL/h. */
    BLOOD_LOSS_RATE_LONG,
    /** The mother's blood volume before the loss, mL. */
    ESTIMATED_BLOOD_VOLUME,
    /** Share of her blood volume that was lost, %. */
    SHARE_OF_BLOOD_VOLUME_LOST,
    /** Class of the haemorrhage by the share of her blood volume that was lost. */
    HAEMORRHAGE_CLASS,
    /** How severe the haemorrhage has become. */
    HAEMORRHAGE_SEVERITY,
    /** Heart rate by mean arterial pressure. */
    MODIFIED_SHOCK_INDEX,
    /** Shock index less the first after birth. */
    SHOCK_INDEX_CHANGE_SINCE_FIRST,
    /** Shock index less the one before. */
    SHOCK_INDEX_CHANGE_SINCE_LAST,
    /** The phase that the tamponade enters. */
    TAMPONADE_PHASE,
    /** Fluid in the chamber in the uterus when bleeding was first controlled behind an insertion, mL. */
    VOLUME_AT_CONTROL,
    /** Time since the mother was last unstable, min. */
    STABLE_TIME,
    /** When deflation may begin at the earliest. */
    DEFLATION_ELIGIBLE_FROM,
    /** What the deflation step has let out so far, mL. */
    DEFLATION_STEP_VOLUME,
    /** What was let out within the watching time, mL. */
    VOLUME_LET_OUT_IN_WATCH,
    /** Urine rate of one collection, mL/h. */
    URINE_RATE,
    /** Urine rate of one collection by body weight, mL/kg/h. */
    URINE_RATE_PER_KG,
    /** Urine rate over the rolling window, mL/h. */
    ROLLING_URINE_RATE,
    /** How long the urine rate has been low, min. */
    OLIGURIA_DURATION,
    /** Height of the fundus less that at insertion, cm. */
    FUNDUS_CHANGE,
    /** Fluids and blood products given so far, mL. */
    FLUIDS_IN,
    /** Urine and blood lost so far, mL. */
    FLUIDS_OUT,
    /** What was given less what was lost, mL. */
    FLUID_BALANCE,
    /** Oxytocin given so far, [iU]. */
    OXYTOCIN_TOTAL,
    /** Carbetocin given so far, ug. */
    CARBETOCIN_TOTAL,
    /** Ergometrine given so far, ug. */
    ERGOMETRINE_TOTAL,
    /** Misoprostol given so far, ug. */
    MISOPROSTOL_TOTAL,
    /** Antifibrinolytic given so far, mg. */
    ANTIFIBRINOLYTIC_TOTAL,
    /** Time left in the window for the antifibrinolytic at recognition, min. */
    ANTIFIBRINOLYTIC_WINDOW_LEFT,
    /** When a second dose of the antifibrinolytic may be given at the earliest. */
    ANTIFIBRINOLYTIC_SECOND_DOSE_FROM,
    /** When the next check is due. */
    NEXT_CHECK_DUE,
    /** Share of the due checks that were done, %. */
    CHECKS_COMPLETENESS,
    /** The first haemoglobin less this one, g/L. */
    HAEMOGLOBIN_FALL,
    /** Which measures of the first response went before the insertion. */
    FIRST_RESPONSE_BUNDLE,
    /** Which conditions for a tamponade were on record at insertion. */
    TAMPONADE_CONDITIONS,
    /** Birth to recognition, min. */
    BIRTH_TO_RECOGNITION,
    /** Recognition to the first medicine after it, min. */
    RECOGNITION_TO_FIRST_MEDICINE,
    /** Birth to the first antifibrinolytic, min. */
    BIRTH_TO_ANTIFIBRINOLYTIC,
    /** Recognition to when all measures of the first response were taken, min. */
    RECOGNITION_TO_FIRST_RESPONSE_COMPLETE,
    /** Recognition to insertion, min. */
    RECOGNITION_TO_INSERTION,
    /** Insertion to the first control of bleeding behind it, min; for each insertion. */
    INSERTION_TO_CONTROL,
    /** Recognition to the decision to refer, min. */
    RECOGNITION_TO_REFERRAL,
    /** Decision to refer to departure, min. */
    REFERRAL_TO_DEPARTURE,
    /** Departure to arrival, min. */
    DEPARTURE_TO_ARRIVAL,
    /** Arrival to handover, min. */
    ARRIVAL_TO_HANDOVER,
    /** Which criteria of a maternal near miss were met so far. */
    NEAR_MISS_CRITERIA,
    /** How the case came out, in the classes of an audit. */
    OUTCOME_CLASS,
    /** Share of days on which the facility was ready, %. */
    READINESS_SHARE,
    /** Days since the readiness of the facility was checked before, d. */
    DAYS_SINCE_READINESS_CHECK;

    /** Whether it is a value of one reading, of which several can be of one instant; all others tell of a state. */
    public boolean isOfOneReading() {
        return this == BLOOD_LOSS_OF_READING || this == URINE_RATE || this == URINE_RATE_PER_KG;
    }
}
