package example.tamponade.core.event;

/**
 * The device came out.
 *
 * @param reason why
 */
public record TamponadeRemoved(RemovalReason reason) implements BedsideEvent {}
