package example.tamponade.app.ledger;

/**
 * Where the ledger is not as it was written.
 *
 * @param caseKey in which case
 * @param caseSeq at which row, from 1
 * @param message what is wrong
 */
public record ChainFault(String caseKey, long caseSeq, String message) {

    @Override
    public String toString() {
        return caseKey + ", event " + caseSeq + ": " + message;
    }
}
