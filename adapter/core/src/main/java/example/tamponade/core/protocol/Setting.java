package example.tamponade.core.protocol;

import example.tamponade.core.event.Coded;

/** The single values of the care protocol; each has one unit, so that no value can be read in another. */
public enum Setting implements Coded {
    /** Density that turns a weight of blood into a volume. */
    BLOOD_DENSITY("g/mL"),
    /** How far apart pulse and pressure may lie to make a pair. */
    PAIRING_WINDOW("min"),
    /** How far an event may lie after the time it was recorded or received. */
    CLOCK_TOLERANCE("min"),
    /** From how long after the event a record counts as a late entry. */
    LATE_ENTRY_AFTER("min"),
    /** From how long before its receipt the clock of a sender that sends at once is doubted. */
    CLOCK_DOUBT_AFTER("min"),
    /** Cumulative blood loss that is a postpartum haemorrhage. */
    HAEMORRHAGE_VOLUME("mL"),
    /** Cumulative blood loss that is a severe postpartum haemorrhage. */
    SEVERE_HAEMORRHAGE_VOLUME("mL"),
    /** Blood volume by body weight in term pregnancy. */
    BLOOD_VOLUME_PER_KG("mL/kg"),
    /** Window of the short rate of loss. */
    LOSS_RATE_SHORT_WINDOW("min"),
    /** Window of the long rate of loss. */
    LOSS_RATE_LONG_WINDOW("min"),
    /** Cumulative blood loss that, with any abnormal sign, calls for action. */
    CRITERION_VOLUME("mL"),
    /** Pulse above which the sign is abnormal. */
    ABNORMAL_PULSE_ABOVE("/min"),
    /** Shock index above which the sign is abnormal. */
    ABNORMAL_SHOCK_INDEX_ABOVE("{ratio}"),
    /** Systolic pressure below which the sign is abnormal. */
    ABNORMAL_SYSTOLIC_BELOW("mm[Hg]"),
    /** Diastolic pressure below which the sign is abnormal. */
    ABNORMAL_DIASTOLIC_BELOW("mm[Hg]"),
    /** Cumulative blood loss above which a haemorrhage is massive. */
    MASSIVE_HAEMORRHAGE_VOLUME("mL"),
    /** How far below the begin of its band the shock index must fall before the flag ends. */
    SHOCK_INDEX_HYSTERESIS("{ratio}"),
    /** From insertion to control; later the mother is sent on with the balloon in place. */
    CONTROL_DEADLINE("min"),
    /** Shortest time in place before easing may begin. */
    MINIMUM_DWELL("h"),
    /** How long the mother must be stable before easing may begin. */
    STABLE_INTERVAL("h"),
    /** Least volume of one easing step. */
    STEP_MINIMUM("mL"),
    /** Most volume of one easing step. */
    STEP_MAXIMUM("mL"),
    /** Drains closer together than this are one step. */
    STEP_GAP("min"),
    /** Watching time after an easing step. */
    STEP_WATCH("min"),
    /** Time empty without bleeding before removal. */
    EMPTY_WAIT("min"),
    /** Longest time in place. */
    MAXIMUM_DWELL("h"),
    /** How long before the longest time in place a warning begins. */
    DWELL_WARNING_BEFORE("h"),
    /** Window of the rolling urine rate, and how long it must be low to be flagged. */
    URINE_WINDOW("h"),
    /** Urine rate below which there is oliguria. */
    OLIGURIA_BELOW("mL/h"),
    /** How long the urine rate by body weight must be low to be flagged. */
    OLIGURIA_PER_KG_FOR("h"),
    /** Urine rate by body weight below which there is oliguria. */
    OLIGURIA_BELOW_PER_KG("mL/kg/h"),
    /** Rise of the fundus since insertion that is flagged. */
    FUNDUS_RISE("cm"),
    /** Rise of the fundus since insertion at which the flag ends. */
    FUNDUS_RISE_ENDS("cm"),
    /** Early warning: systolic pressure below. */
    WARNING_SYSTOLIC_BELOW("mm[Hg]"),
    /** Early warning: systolic pressure above. */
    WARNING_SYSTOLIC_ABOVE("mm[Hg]"),
    /** Early warning: diastolic pressure above. */
    WARNING_DIASTOLIC_ABOVE("mm[Hg]"),
    /** Early warning: pulse below. */
    WARNING_PULSE_BELOW("/min"),
    /** Early warning: pulse above. */
    WARNING_PULSE_ABOVE("/min"),
    /** Early warning: respirations below. */
    WARNING_RESPIRATIONS_BELOW("/min"),
    /** Early warning: respirations above. */
    WARNING_RESPIRATIONS_ABOVE("/min"),
    /** Early warning: oxygen saturation on room air below. */
    WARNING_SATURATION_BELOW("%"),
    /** How long after birth the antifibrinolytic may be begun. */
    ANTIFIBRINOLYTIC_WINDOW("h"),
    /** How long before the end of the window a warning begins. */
    ANTIFIBRINOLYTIC_WARNING_BEFORE("min"),
    /** Earliest second dose after the first when bleeding goes on. */
    ANTIFIBRINOLYTIC_SECOND_AFTER("min"),
    /** Latest second dose after the first when bleeding begins again. */
    ANTIFIBRINOLYTIC_SECOND_WITHIN("h"),
    /** How late a check may be before it counts as missed. */
    CHECK_GRACE("min"),
    /** For how many days a readiness check of the facility speaks, its own included. */
    READINESS_SPEAKS_FOR("d"),
    /** Over how many days the readiness of the facility is counted. */
    READINESS_WINDOW("d");

    private final String unit;

    Setting(String unit) {
        this.unit = unit;
    }

    /** The UCUM unit that the value must have. */
    public String unit() {
        return unit;
    }
}
