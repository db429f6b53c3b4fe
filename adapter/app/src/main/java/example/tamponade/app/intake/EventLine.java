package example.tamponade.app.intake;

/**
 * One line of a file of events.
 *
 * @param number its number, from 1
 * @param offset where it begins in the file, in bytes
 * @param bytes the line without its line end
 */
@SuppressWarnings("ArrayRecordComponent") // Read once and never compared.
public record EventLine(long number, long offset, byte[] bytes) {

    /** Whether there is nothing on the line but white space. */
    public boolean blank() {
        for (byte b : bytes) {
            if (b != ' ' && b != '\t' && b != '\r') {
                return false;
            }
        }
        return true;
    }
}
