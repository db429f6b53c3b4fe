package example.tamponade.conformance;

/** A profile uses something that cannot be compiled. */
public final class UnknownConstructException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /**
     * Names the place.
     *
     * @param profile the canonical address of the profile
     * @param element the id of the element in its snapshot
     * @param construct what is not known
     */
    public UnknownConstructException(String profile, String element, String construct) {
        super(profile + " at " + element + ": " + construct
                + " cannot be compiled; express it otherwise, or teach the compiler");
    }
}
