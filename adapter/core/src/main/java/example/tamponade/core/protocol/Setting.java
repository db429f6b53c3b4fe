package example.tamponade.core.protocol;

import example.tamponade.core.event.Coded;
import java.math.BigDecimal;

/** The single values of the care protocol; each has one unit, so that no value can be read in another. */
public enum Setting implements Coded {
    /** Density that turns a weight of blood into a volume. */
    BLOOD_DENSITY("g/mL", "0.9", "1.2"),
    /** How far apart pulse and pressure may lie to make a pair. */
    PAIRING_WINDOW("min", "0", "60"),
    /** How far an event may lie after the time it was recorded or received. */
    CLOCK_TOLERANCE("min", "0", "1440"),
    /** From how long after the event a record counts as a late entry. */
    LATE_ENTRY_AFTER("min", "0", "10080"),
    /** From how long before its receipt the clock of a sender that sends at once is doubted. */
    CLOCK_DOUBT_AFTER("min", "1", "10080"),
    /** Cumulative blood loss that is a postpartum haemorrhage. */
    HAEMORRHAGE_VOLUME("mL", "1", "10000"),
    /** Cumulative blood loss that is a severe postpartum haemorrhage. */
    SEVERE_HAEMORRHAGE_VOLUME("mL", "1", "10000"),
    /** Blood volume by body weight in term pregnancy. */
    BLOOD_VOLUME_PER_KG("mL/kg", "30", "150"),

    /** Body mass index above which the blood volume by weight is the lower one. */
    OBESITY_ABOVE("kg/m2", "20", "100"),

    /** Blood volume by body weight in term pregnancy with obesity. */
    BLOOD_VOLUME_PER_KG_OBESITY("mL/kg", "30", "150"),

    /** Share of the blood volume lost up to which the loss is of class I. */
    LOSS_CLASS_I_TO("%", "1", "100"),

    /** Share of the blood volume lost up to which the loss is of class II. */
    LOSS_CLASS_II_TO("%", "1", "100"),

    /** Share of the blood volume lost up to which the loss is of class III. */
    LOSS_CLASS_III_TO("%", "1", "100"),
    /** Window of the short rate of loss. */
    LOSS_RATE_SHORT_WINDOW("min", "1", "1440"),
    /** Window of the long rate of loss. */
    LOSS_RATE_LONG_WINDOW("min", "1", "1440"),
    /** Cumulative blood loss that, with any abnormal sign, calls for action. */
    CRITERION_VOLUME("mL", "1", "10000"),
    /** Pulse above which the sign is abnormal. */
    ABNORMAL_PULSE_ABOVE("/min", "1", "300"),
    /** Shock index above which the sign is abnormal. */
    ABNORMAL_SHOCK_INDEX_ABOVE("{ratio}", "0.1", "5"),
    /** Systolic pressure below which the sign is abnormal. */
    ABNORMAL_SYSTOLIC_BELOW("mm[Hg]", "20", "250"),
    /** Diastolic pressure below which the sign is abnormal. */
    ABNORMAL_DIASTOLIC_BELOW("mm[Hg]", "20", "250"),
    /** Cumulative blood loss above which a haemorrhage is massive. */
    MASSIVE_HAEMORRHAGE_VOLUME("mL", "1", "10000"),
    /** How far below the begin of its band the shock index must fall before the flag ends. */
    SHOCK_INDEX_HYSTERESIS("{ratio}", "0", "0.5"),
    /** From insertion to control; later the mother is sent on with the balloon in place. */
    CONTROL_DEADLINE("min", "1", "1440"),
    /** Shortest time in place before deflation may begin. */
    MINIMUM_DWELL("h", "0", "168"),
    /** How long the mother must be stable before deflation may begin. */
    STABLE_INTERVAL("h", "0", "168"),
    /** How many intervals of the schedule may pass between two checks of a sign that are to show that she is stable. */
    STABILITY_GAP("{interval}", "1", "10"),
    /** Least volume of one deflation step. */
    STEP_MINIMUM("mL", "1", "10000"),
    /** Most volume of one deflation step. */
    STEP_MAXIMUM("mL", "1", "10000"),
    /** Drains closer together than this are one step. */
    STEP_GAP("min", "0", "60"),
    /** Watching time after a deflation step. */
    STEP_WATCH("min", "0", "1440"),
    /** Time empty without bleeding before removal. */
    EMPTY_WAIT("min", "0", "1440"),
    /** Longest time in place. */
    MAXIMUM_DWELL("h", "0.25", "168"),
    /** How long before the longest time in place a warning begins. */
    DWELL_WARNING_BEFORE("h", "0", "168"),
    /** Window of the rolling urine rate, and how long it must be low to be flagged. */
    URINE_WINDOW("h", "0.25", "168"),
    /** Urine rate below which there is oliguria. */
    OLIGURIA_BELOW("mL/h", "1", "200"),
    /** How long the urine rate by body weight must be low to be flagged. */
    OLIGURIA_PER_KG_FOR("h", "0.25", "168"),
    /** Urine rate by body weight below which there is oliguria. */
    OLIGURIA_BELOW_PER_KG("mL/kg/h", "0.1", "5"),

    /** Shortest collection of urine that gives a rate. */
    URINE_COLLECTION_MINIMUM("min", "0", "240"),
    /** How soon after insertion the fundus must be felt for its height to be the base of a rise. */
    FUNDUS_BASE_WITHIN("min", "0", "1440"),
    /** Rise of the fundus since insertion that is flagged. */
    FUNDUS_RISE("cm", "0.1", "20"),
    /** Rise of the fundus since insertion at which the flag ends. */
    FUNDUS_RISE_ENDS("cm", "0", "20"),
    /** Early warning: systolic pressure below. */
    WARNING_SYSTOLIC_BELOW("mm[Hg]", "20", "250"),
    /** Early warning: systolic pressure above. */
    WARNING_SYSTOLIC_ABOVE("mm[Hg]", "20", "250"),
    /** Early warning: diastolic pressure above. */
    WARNING_DIASTOLIC_ABOVE("mm[Hg]", "20", "250"),
    /** Early warning: pulse below. */
    WARNING_PULSE_BELOW("/min", "1", "300"),
    /** Early warning: pulse above. */
    WARNING_PULSE_ABOVE("/min", "1", "300"),
    /** Early warning: respirations below. */
    WARNING_RESPIRATIONS_BELOW("/min", "1", "300"),
    /** Early warning: respirations above. */
    WARNING_RESPIRATIONS_ABOVE("/min", "1", "300"),
    /** Early warning: oxygen saturation on room air below. */
    WARNING_SATURATION_BELOW("%", "50", "100"),
    /** How long after birth the antifibrinolytic may be begun. */
    ANTIFIBRINOLYTIC_WINDOW("h", "0.25", "168"),
    /** How long before the end of the window a warning begins. */
    ANTIFIBRINOLYTIC_WARNING_BEFORE("min", "0", "1440"),
    /** From how long after the begin of the first dose the times to the second count: 0 its begin, its duration its end. */
    ANTIFIBRINOLYTIC_FIRST_DOSE_LASTS("min", "0", "120"),
    /** Earliest second dose after the first when bleeding goes on. */
    ANTIFIBRINOLYTIC_SECOND_AFTER("min", "0", "1440"),
    /** Latest second dose after the first when bleeding begins again. */
    ANTIFIBRINOLYTIC_SECOND_WITHIN("h", "0.25", "168"),
    /** How late a check may be before it counts as missed. */
    CHECK_GRACE("min", "0", "240"),
    /** For how many days a readiness check of the facility speaks, its own included. */
    READINESS_SPEAKS_FOR("d", "1", "366"),

    /** Longest way to an operating theatre that the plan of the facility allows. */
    THEATRE_WITHIN("min", "1", "1440"),
    /** Over how many days the readiness of the facility is counted. */
    READINESS_WINDOW("d", "1", "366"),

    /** How soon after recognition, or after the criterion of haemorrhage, a measure of the first response is due. */
    FIRST_RESPONSE_WITHIN("min", "1", "240"),

    /** For how long after insertion the loss is judged. */
    LOSS_AFTER_INSERTION_WITHIN("min", "1", "240"),

    /** Loss after insertion above which the balloon may fail. */
    LOSS_AFTER_INSERTION_ALERT("mL", "1", "10000"),

    /** Loss after insertion above which an invasive step is considered. */
    LOSS_AFTER_INSERTION_INVASIVE("mL", "1", "10000"),

    /** Fibrinogen at or below which it is low. */
    FIBRINOGEN_LOW("g/L", "0.1", "20"),

    /** Lactate above which it is raised. */
    LACTATE_RAISED_ABOVE("mmol/L", "0.1", "50"),

    /** Lactate above which it is high. */
    LACTATE_HIGH_ABOVE("mmol/L", "0.1", "50"),

    /** Shock index above which, with a high lactate, massive transfusion is likely. */
    LACTATE_SHOCK_INDEX_ABOVE("{ratio}", "0.1", "5"),

    /** Haemoglobin below which there is postpartum anaemia. */
    ANAEMIA_BELOW("g/L", "10", "250"),

    /** Haemoglobin above which it is to be kept. */
    HAEMOGLOBIN_KEPT_ABOVE("g/L", "10", "250"),

    /** Platelets below which they are given. */
    PLATELETS_GIVEN_BELOW("10*9/L", "1", "1000"),

    /** Platelets below which the count is critical. */
    PLATELETS_CRITICAL_BELOW("10*9/L", "1", "1000"),

    /** Bedside clotting time above which clotting fails. */
    CLOTTING_TIME_ABOVE("min", "1", "120");

    private final String unit;
    private final BigDecimal least;
    private final BigDecimal most;

    Setting(String unit, String least, String most) {
        this.unit = unit;
        this.least = new BigDecimal(least);
        this.most = new BigDecimal(most);
    }

    /** The UCUM unit that the value must have. */
    public String unit() {
        return unit;
    }

    /** The least value that can be meant. Whether a possible value is wise the facility decides. */
    BigDecimal least() {
        return least;
    }

    /** The greatest value that can be meant. */
    BigDecimal most() {
        return most;
    }
}
