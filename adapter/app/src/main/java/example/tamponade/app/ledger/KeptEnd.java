package example.tamponade.app.ledger;

/**
 * How far a case's chain had come.
 *
 * @param caseKey the case or facility
 * @param caseSeq how many events it had
 * @param link the last one's link, lower-case hex
 */
public record KeptEnd(String caseKey, long caseSeq, String link) {}
