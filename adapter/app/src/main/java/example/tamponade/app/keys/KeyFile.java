package example.tamponade.app.keys;

import com.nimbusds.jose.JOSEException;
import com.nimbusds.jose.JWSAlgorithm;
import com.nimbusds.jose.jwk.Curve;
import com.nimbusds.jose.jwk.JWK;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jose.jwk.KeyUse;
import com.nimbusds.jose.jwk.gen.ECKeyGenerator;
import example.tamponade.app.database.OwnersFolder;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.text.ParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * Private keys in a file, as a JWK Set (RFC 7517). The first one signs; all are published, so that a new key is known to
 * others before it signs, and an old one for as long as what it signed is on its way. The file is read whenever a key is
 * asked for, so that a change counts at once.
 */
public final class KeyFile {

    // What SMART Backend Services asks everybody to take (HL7 SMART App Launch 2.2.0, 5.2).
    private static final Set<JWSAlgorithm> ALGORITHMS = Set.of(JWSAlgorithm.ES384, JWSAlgorithm.RS384);

    private final Path file;

    /** The keys in that file. */
    public KeyFile(Path file) {
        this.file = file;
    }

    /**
     * The key that signs.
     *
     * @throws UnusableKeysException when the file holds no key that could
     */
    public JWK signing() {
        return all().get(0);
    }

    /**
     * Every key, without its private part.
     *
     * @throws UnusableKeysException when the file holds none
     */
    public List<JWK> published() {
        return all().stream().map(JWK::toPublicJWK).toList();
    }

    private List<JWK> all() {
        List<JWK> keys;
        try {
            keys = JWKSet.load(file.toFile()).getKeys();
        } catch (IOException e) {
            throw new UnusableKeysException(file, "it cannot be read; make it with keys add " + file);
        } catch (ParseException e) {
            throw new UnusableKeysException(file, "it is no JWK Set; make one with keys add in another file");
        }
        if (keys.isEmpty()) {
            throw new UnusableKeysException(file, "there is none; make one with keys add " + file);
        }
        for (JWK key : keys) {
            boolean signs = key.isPrivate() && key.getKeyID() != null && key.getAlgorithm() != null;
            if (!signs || !ALGORITHMS.contains(key.getAlgorithm())) {
                throw new UnusableKeysException(
                        file, "each must be private, with kid, and alg ES384 or RS384; make one with keys add");
            }
        }
        return keys;
    }

    /**
     * Adds a new key behind the others, in a file of its owner's alone.
     *
     * @return its id
     * @throws IOException when the file cannot be written
     */
    public String add() throws IOException {
        List<JWK> keys = new ArrayList<>(Files.exists(file) ? all() : List.of());
        try {
            JWK key = new ECKeyGenerator(Curve.P_384)
                    .keyUse(KeyUse.SIGNATURE)
                    .algorithm(JWSAlgorithm.ES384)
                    .keyIDFromThumbprint(true)
                    .generate();
            keys.add(key);
            write(keys);
            return key.getKeyID();
        } catch (JOSEException e) {
            throw new IllegalStateException("every JDK has the curve P-384", e);
        }
    }

    /**
     * Has the newest key sign from now on; the others stay published.
     *
     * @return its id
     * @throws IOException when the file cannot be written
     */
    public String useNewest() throws IOException {
        List<JWK> keys = new ArrayList<>(all());
        JWK newest = keys.remove(keys.size() - 1);
        keys.add(0, newest);
        write(keys);
        return newest.getKeyID();
    }

    private void write(List<JWK> keys) throws IOException {
        OwnersFolder.write(file, new JWKSet(keys).toString(false));
    }
}
