package example.tamponade.app.outbox;

/**
 * A version of a resource that a destination does not have.
 *
 * @param type its type
 * @param id its logical id
 * @param version the number of the version on record
 */
public record DueResource(String type, String id, int version) {

    /** {@code Type/id}. */
    public String name() {
        return type + "/" + id;
    }
}
