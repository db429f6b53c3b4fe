package example.tamponade.core.event;

/** How the baby was born. */
public enum BirthMode implements Coded {
    /** Spontaneous vaginal birth. */
    VAGINAL,
    /** Vaginal birth with forceps or vacuum. */
    ASSISTED,
    /** Caesarean section. */
    CAESAREAN
}
