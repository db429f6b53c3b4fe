package example.tamponade.app.delivery;

/** Who gives a resource its id at a destination. */
public enum ResourceIds {
    /** The adapter: each resource is put at its own address. */
    OURS,
    /** The receiver: a resource is found again by an identifier of ours, and known by the receiver's id from then on. */
    RECEIVER
}
