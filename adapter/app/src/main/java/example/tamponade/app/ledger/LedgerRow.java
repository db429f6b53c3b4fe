package example.tamponade.app.ledger;

import example.tamponade.app.intake.Piece;

/**
 * A row of the ledger as it is stored.
 *
 * @param caseKey the case or facility it belongs to
 * @param caseSeq its place there, from 1 without gaps
 * @param eventId the event's id
 * @param receivedAt when it came, ISO 8601 in UTC
 * @param format the code of the format it came in
 * @param digest SHA-256 of the bytes it came in, lower-case hex
 * @param payload the event in JSON
 */
record LedgerRow(
        String caseKey, long caseSeq, String eventId, String receivedAt, String format, String digest, String payload) {

    /** What stands before the first row of a case. */
    static final String NO_LINK = "";

    /**
     * The row's link: SHA-256, lower-case hex, of the UTF-8 text of the link before it and every column, one a line, the
     * payload last. No column but the payload holds a line end, so no two rows have the same text.
     */
    String link(String before) {
        return Piece.digest(String.join(
                "\n", before, caseKey, Long.toString(caseSeq), eventId, receivedAt, format, digest, payload));
    }
}
