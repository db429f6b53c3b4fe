package example.tamponade.app.access;

import example.tamponade.app.database.OwnersFolder;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.springframework.security.authentication.AuthenticationProvider;
import org.springframework.security.authentication.BadCredentialsException;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.core.Authentication;

/**
 * The key of whoever looks after this adapter, so that it can be used without an authorization server. It is made at the
 * first start, in a file of its owner's alone that {@code curl --netrc-file} reads, and sent as a password (RFC 7617).
 */
public final class OperatorKey implements AuthenticationProvider {

    /** The name of the file. */
    public static final String FILE = "operator-key";

    /** The user whose password it is. */
    public static final String USER = "operator";

    private static final int BYTES = 32;
    private static final Pattern ENTRY = Pattern.compile("login operator password (\\S{20,})");

    private final byte[] key;

    private OperatorKey(String key) {
        this.key = key.getBytes(StandardCharsets.UTF_8);
    }

    /**
     * Reads the key in that folder, or makes one and prints it, this once.
     *
     * @throws IOException when it cannot be kept, or the file holds none
     */
    public static OperatorKey in(Path folder, PrintStream out) throws IOException {
        Path file = OwnersFolder.make(folder).resolve(FILE);
        if (!Files.exists(file)) {
            String made = random();
            OwnersFolder.write(file, text(made));
            out.println("operator's key, made now and kept in " + file + ": " + made);
        }
        Matcher matcher = ENTRY.matcher(Files.readString(file));
        if (!matcher.find()) {
            throw new IOException(file + " holds no key; delete it, and the next start makes one");
        }
        return new OperatorKey(matcher.group(1));
    }

    private static String random() {
        byte[] random = new byte[BYTES];
        new SecureRandom().nextBytes(random);
        return Base64.getUrlEncoder().withoutPadding().encodeToString(random);
    }

    // For the loopback alone: it is not sent to anywhere else by mistake.
    private static String text(String key) {
        StringBuilder text = new StringBuilder();
        for (String host : new String[] {"127.0.0.1", "localhost"}) {
            text.append("machine ")
                    .append(host)
                    .append(" login operator password ")
                    .append(key)
                    .append('\n');
        }
        return text.toString();
    }

    @Override
    public Authentication authenticate(Authentication asked) {
        byte[] password = String.valueOf(asked.getCredentials()).getBytes(StandardCharsets.UTF_8);
        // In the same time whatever it is.
        if (MessageDigest.isEqual(password, key) && USER.equals(asked.getName())) {
            return new CallerAuthentication(Caller.operator());
        }
        throw new BadCredentialsException("no such user here, or another key; the operator's is in the file " + FILE
                + " in the adapter's folder of data");
    }

    @Override
    public boolean supports(Class<?> type) {
        return UsernamePasswordAuthenticationToken.class.isAssignableFrom(type);
    }

    /** What a request sends to be let in with it: the value of the header Authorization. */
    public String header() {
        String both = USER + ":" + new String(key, StandardCharsets.UTF_8);
        return "Basic " + Base64.getEncoder().encodeToString(both.getBytes(StandardCharsets.UTF_8));
    }
}
