package example.tamponade.app.hostile;

/**
 * An input made to do harm.
 *
 * @param name which kind, for whoever reads the faults
 * @param path where it is posted
 * @param type its content type
 * @param body its bytes
 */
@SuppressWarnings("ArrayRecordComponent") // Sent once and never compared.
record HostileInput(String name, String path, String type, byte[] body) {}
