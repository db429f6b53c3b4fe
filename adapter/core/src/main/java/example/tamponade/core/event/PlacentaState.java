package example.tamponade.core.event;

/** Whether the placenta has come. */
public enum PlacentaState implements Coded {
    /** Delivered and found complete. */
    COMPLETE,
    /** Delivered with parts missing. */
    INCOMPLETE,
    /** Not delivered in the expected time. */
    RETAINED,
    /** Not delivered at the time of the record. */
    NOT_YET
}
