package example.tamponade.core.event;

/** Where an event was written down first. */
public enum EventSource implements Coded {
    /** An electronic form. */
    FORM,
    /** A paper register keyed in. */
    REGISTER,
    /** A bedside monitor. */
    MONITOR,
    /** A message from another system. */
    MESSAGE
}
