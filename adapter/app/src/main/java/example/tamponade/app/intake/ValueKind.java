package example.tamponade.app.intake;

/** What a property's value is. */
public enum ValueKind {
    /** A number that may come with a unit. */
    AMOUNT,
    /** A number whose unit is fixed or stands in a property of its own. */
    NUMBER,
    YES_OR_NO,
    /** A date and a time of day with the offset from UTC. */
    TIME,
    /** A date alone. */
    DATE,
    /** Words, a code, an id. */
    TEXT
}
