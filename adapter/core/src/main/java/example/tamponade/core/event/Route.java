package example.tamponade.core.event;

/** The way in. */
public enum Route implements Coded {
    /** Into a vein. */
    INTRAVENOUS,
    /** Into a muscle. */
    INTRAMUSCULAR,
    /** By mouth. */
    ORAL,
    /** Under the tongue. */
    SUBLINGUAL,
    /** Per rectum. */
    RECTAL,
    /** Into the bone marrow. */
    INTRAOSSEOUS
}
