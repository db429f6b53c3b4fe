package example.tamponade.app.message;

/**
 * A block as it came.
 *
 * @param bytes its content; of one that is too long to be kept the beginning
 * @param tooLong whether that is not all of it
 */
@SuppressWarnings("ArrayRecordComponent") // Read once and never compared.
record Frame(byte[] bytes, boolean tooLong) {}
