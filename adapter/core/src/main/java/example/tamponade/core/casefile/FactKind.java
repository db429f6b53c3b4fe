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
    TIME_IN_SITU
}
