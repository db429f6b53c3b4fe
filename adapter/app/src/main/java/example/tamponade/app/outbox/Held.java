package example.tamponade.app.outbox;

/**
 * What a destination holds of a resource.
 *
 * @param digest of the content that it was sent last
 * @param etag how it names that version; empty where it does not say
 * @param id the id that it has there; empty where it is ours, or not known
 */
public record Held(String digest, String etag, String id) {}
