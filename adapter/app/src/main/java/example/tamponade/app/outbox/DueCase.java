package example.tamponade.app.outbox;

/**
 * A case of which something is due at a destination.
 *
 * @param caseKey the case, or the facility
 * @param attempts how often it was tried in vain
 */
public record DueCase(String caseKey, int attempts) {}
