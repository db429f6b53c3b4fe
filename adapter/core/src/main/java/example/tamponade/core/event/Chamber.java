package example.tamponade.core.event;

/** A fluid chamber of the device. */
public enum Chamber implements Coded {
    /** The chamber inside the uterus. */
    TAMPONADE,
    /** The chamber in the vagina that keeps the device in place. */
    RETENTION
}
