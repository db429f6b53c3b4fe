package example.tamponade.core.casefile;

/** What must be looked at, again and again, before it can be said that the mother was stable. */
enum StableSign {
    /** The bleeding. */
    BLEEDING,
    /** The pulse. */
    PULSE,
    /** The blood pressure, be it that it could not be recorded. */
    BLOOD_PRESSURE,
    /** The uterus, which says what collects above the balloon. */
    FUNDUS;

    /** The sign in words. */
    String words() {
        return name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ');
    }
}
