package example.tamponade.core.event;

/** Why the mother is sent on. */
public enum ReferralReason implements Coded {
    /** Bleeding was not controlled. */
    BLEEDING_NOT_CONTROLLED,
    /** Bleeding began again. */
    BLEEDING_AGAIN,
    /** Surgery is needed. */
    SURGERY_NEEDED,
    /** Blood products are needed. */
    BLOOD_NEEDED,
    /** Closer watching than the facility can give. */
    CLOSER_CARE
}
