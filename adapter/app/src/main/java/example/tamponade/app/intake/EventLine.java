package example.tamponade.app.intake;

/**
 * One line of a file of events.
 *
 * @param number its number, from 1
 * @param offset where it begins in the file, in bytes
 * @param length how many bytes it has without its line end
 * @param bytes the line; of a line that is too long only the beginning
 */
@SuppressWarnings("ArrayRecordComponent") // Read once and never compared.
public record EventLine(long number, long offset, long length, byte[] bytes) {

    /** Whether all of the line is here. */
    public boolean whole() {
        return bytes.length == length;
    }

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
