package example.tamponade.app.record;

import example.tamponade.core.event.EventEnvelope;

/**
 * An event of the ledger that the software failed to put on record; its case goes on without it.
 *
 * @param seq its place in its case
 * @param event the event
 * @param software the version that failed
 */
public record SetAside(long seq, EventEnvelope event, String software) {}
