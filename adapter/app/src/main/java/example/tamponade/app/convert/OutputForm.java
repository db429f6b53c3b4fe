package example.tamponade.app.convert;

/** In which form the resources of a case are written. */
public enum OutputForm {
    /** One file for each resource type, one resource a line. */
    NDJSON,
    /** One transaction Bundle a case. */
    TRANSACTION,
    /** One document Bundle a case. */
    DOCUMENT,
    /** One page a case, for a browser or for print. */
    PAGE,
    /** One PDF a case. */
    PDF;

    /** Whether it is made of a case's document. */
    boolean isOfDocument() {
        return this == DOCUMENT || this == PAGE || this == PDF;
    }
}
