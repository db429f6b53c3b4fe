package example.tamponade.core.event;

/** The blood product given. */
public enum BloodProduct implements Coded {
    /** Whole blood. */
    WHOLE_BLOOD,
    /** Red cell concentrate. */
    RED_CELLS,
    /** Plasma. */
    PLASMA,
    /** Platelets. */
    PLATELETS,
    /** Cryoprecipitate. */
    CRYOPRECIPITATE
}
