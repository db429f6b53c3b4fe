package example.tamponade.core.event;

/** What the mother said about sharing her record. */
public enum Consent implements Coded {
    /** She agreed. */
    GIVEN,
    /** She refused; the record stays at the facility. */
    REFUSED,
    /** She could not be asked yet, as in an emergency. */
    DEFERRED
}
