package example.tamponade.app;

import static java.nio.charset.StandardCharsets.UTF_8;

import example.tamponade.app.access.OperatorKey;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.Scanner;

/** What whoever has the operator's key sends, as curl reads it from the file of a server's folder. */
public final class OperatorLogin {

    private OperatorLogin() {}

    /** The value of the header Authorization; of nobody as long as the server has made no key. */
    public static String of(Path folder) {
        try {
            Path file = folder.resolve(OperatorKey.FILE);
            if (!Files.exists(file)) {
                return "Basic";
            }
            Scanner words = new Scanner(Files.readString(file));
            words.findInLine("login (\\S+) password (\\S+)");
            String both = words.match().group(1) + ":" + words.match().group(2);
            return "Basic " + Base64.getEncoder().encodeToString(both.getBytes(UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
