package example.tamponade.core.event;

/** The four causes of postpartum haemorrhage taught as the four Ts. */
public enum SuspectedCause implements Coded {
    /** The uterus does not contract. */
    TONE,
    /** Retained placenta or clots. */
    TISSUE,
    /** Tears or rupture. */
    TRAUMA,
    /** A clotting disorder. */
    THROMBIN
}
