package example.tamponade.core.event;

/** What was done with hands or garment against the bleeding. */
public enum ManoeuvreKind implements Coded {
    /** Rubbing up a contraction. */
    UTERINE_MASSAGE,
    /** Compression of the uterus between two hands. */
    BIMANUAL_COMPRESSION,
    /** Compression of the abdominal aorta. */
    AORTIC_COMPRESSION,
    /** Non-pneumatic anti-shock garment. */
    ANTI_SHOCK_GARMENT,
    /** Bladder emptied. */
    BLADDER_EMPTIED,
    /** Uterine cavity explored for retained tissue. */
    CAVITY_EXPLORED,
    /** Tear of the genital tract repaired. */
    TEAR_REPAIRED
}
