package example.tamponade.app.message;

/** What a result's status says (HL7 2.5.1, table 0085 for OBX-11 and table 0123 for OBR-25). */
enum ResultStatus {
    /** F: it stands. */
    FINAL,
    /** C: it stands in place of what was sent before. */
    CORRECTED,
    /** D, W: what was sent before is withdrawn. */
    WITHDRAWN,
    /** X: it was sought and could not be obtained. */
    NOT_OBTAINED,
    /** All others: not final, or not known. */
    NOT_FINAL;

    /** By OBX-11. */
    static ResultStatus ofObservation(String code) {
        return switch (code) {
            case "F" -> FINAL;
            case "C" -> CORRECTED;
            case "X" -> NOT_OBTAINED;
            case "D", "W" -> WITHDRAWN;
            default -> NOT_FINAL;
        };
    }

    /** By OBR-25; when it is empty the observations tell. */
    static ResultStatus ofOrder(String code) {
        return switch (code) {
            case "F", "" -> FINAL;
            case "C" -> CORRECTED;
            default -> NOT_FINAL;
        };
    }
}
