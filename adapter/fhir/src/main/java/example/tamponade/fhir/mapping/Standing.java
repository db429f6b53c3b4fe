package example.tamponade.fhir.mapping;

/** How an event stands. */
enum Standing {
    /** As it was first recorded. */
    AS_RECORDED(""),
    /** Replaced by a correction. */
    CORRECTED("Corrected after it was first recorded."),
    /** Withdrawn; it stays readable. */
    WITHDRAWN("Entered in error: withdrawn by those who recorded it.");

    private final String words;

    Standing(String words) {
        this.words = words;
    }

    /** A line for those who read the record; empty when there is nothing to say. */
    String words() {
        return words;
    }
}
