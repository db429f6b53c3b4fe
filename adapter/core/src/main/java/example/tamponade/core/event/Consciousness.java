package example.tamponade.core.event;

/** Level of consciousness on the AVPU scale. */
public enum Consciousness implements Coded {
    /** Alert. */
    A,
    /** Responds to voice. */
    V,
    /** Responds to pain only. */
    P,
    /** Unresponsive. */
    U;

    /** The letter itself, as the scale writes it. */
    @Override
    public String code() {
        return name();
    }
}
