package example.tamponade.core.casefile;

import example.tamponade.core.event.Coded;

/** Which reading of an event a fact was derived from. */
public enum Reading implements Coded {
    MOTHER_WEIGHT,
    MOTHER_HEIGHT,
    PULSE,
    BLOOD_PRESSURE,
    RESPIRATIONS,
    OXYGEN_SATURATION,
    TEMPERATURE,
    CONSCIOUSNESS,
    BLOOD_LOSS,
    UTERINE_TONE,
    FUNDAL_HEIGHT,
    BLEEDING_AMOUNT,
    SYMPTOMS,
    URINE_OUTPUT,
    LABORATORY,
    BALLOON_VOLUME_CHANGE,
    TAMPONADE,
    TAMPONADE_REMOVAL,
    /** The event as a whole, where no single reading of it is meant. */
    EVENT
}
