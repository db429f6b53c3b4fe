package example.tamponade.app.outbox;

import example.tamponade.core.event.Coded;

/** How a case stands at a destination that something of it is due at. */
public enum OutboxState implements Coded {
    /** It is tried again by itself. */
    WAITING,
    /** The destination refused it: it is tried again when somebody releases it. */
    PARKED
}
