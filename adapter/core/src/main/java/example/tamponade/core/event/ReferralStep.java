package example.tamponade.core.event;

/** How far a referral has come. */
public enum ReferralStep implements Coded {
    /** Decided. */
    DECIDED,
    /** Departed. */
    DEPARTED,
    /** Arrived. */
    ARRIVED,
    /** Handed over to the receiving team. */
    HANDED_OVER
}
