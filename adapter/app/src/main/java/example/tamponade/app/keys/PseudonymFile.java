package example.tamponade.app.keys;

import example.tamponade.fhir.pseudonym.PseudonymKey;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** The key that pseudonyms are made with, in a file. Whoever has it can tell whose a case is. */
public final class PseudonymFile {

    private static final int LONGEST = 4096;

    private PseudonymFile() {}

    /**
     * The key in that file.
     *
     * @throws IOException naming the file and the remedy, when it cannot be read or holds no key
     */
    public static PseudonymKey key(Path file) throws IOException {
        if (!Files.isReadable(file) || Files.size(file) > LONGEST) {
            throw new IOException(
                    file + " is no file with a key of pseudonyms; make one with: openssl rand -out " + file + " 32");
        }
        try {
            return new PseudonymKey(Files.readAllBytes(file));
        } catch (IllegalArgumentException e) {
            throw new IOException(file + ": " + e.getMessage(), e);
        }
    }
}
