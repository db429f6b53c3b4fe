package example.tamponade.app.message;

/**
 * What stood between the start and the end of an MLLP block.
 *
 * @param bytes the content; of one that is too long only the beginning
 * @param length how many bytes it had
 */
@SuppressWarnings("ArrayRecordComponent") // Read once and never compared.
record Frame(byte[] bytes, long length) {}
