package example.tamponade.core.casefile;

import example.tamponade.core.event.EventEnvelope;
import java.util.UUID;

/**
 * An event that was withdrawn; it stays in the record as entered in error.
 *
 * @param root the id that the event was first recorded under
 * @param event what stood before
 * @param retraction the event that withdrew it
 */
public record Withdrawn(UUID root, EventEnvelope event, EventEnvelope retraction) {}
