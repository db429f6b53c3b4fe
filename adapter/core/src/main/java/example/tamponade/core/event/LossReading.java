package example.tamponade.core.event;

/** How a blood loss reading adds up. */
public enum LossReading implements Coded {
    /** New loss, to be added. */
    INCREMENT,
    /** What the collector holds so far. */
    RUNNING_TOTAL
}
