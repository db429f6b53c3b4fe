package example.tamponade.app.keys;

import com.nimbusds.jose.JOSEException;
import com.nimbusds.jose.JWSAlgorithm;
import com.nimbusds.jose.JWSHeader;
import com.nimbusds.jose.JWSObject;
import com.nimbusds.jose.JWSVerifier;
import com.nimbusds.jose.Payload;
import com.nimbusds.jose.crypto.ECDSAVerifier;
import com.nimbusds.jose.crypto.RSASSAVerifier;
import com.nimbusds.jose.crypto.factories.DefaultJWSSignerFactory;
import com.nimbusds.jose.jwk.ECKey;
import com.nimbusds.jose.jwk.JWK;
import com.nimbusds.jose.jwk.JWKSet;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.text.ParseException;
import tools.jackson.core.JacksonException;

/**
 * Signatures of FHIR files that are handed on: a JWS (RFC 7515) with its content detached (appendix F), in a file beside each,
 * over the file's canonical JSON. Keys are JWK Sets (RFC 7517): the adapter's own, and what it publishes of them.
 */
public final class BundleSignatures {

    private BundleSignatures() {}

    /**
     * Writes a file's signature beside it.
     *
     * @throws IOException when it cannot be written
     * @throws UnusableKeysException when there is no key to sign with
     */
    public static void sign(Path file, KeyFile keys) throws IOException {
        JWK key = keys.signing();
        try {
            JWSHeader header = new JWSHeader.Builder(
                            JWSAlgorithm.parse(key.getAlgorithm().getName()))
                    .keyID(key.getKeyID())
                    .build();
            JWSObject signed = new JWSObject(header, content(file));
            signed.sign(new DefaultJWSSignerFactory().createJWSSigner(key));
            Files.writeString(signatureOf(file), signed.serialize(true) + "\n");
        } catch (JOSEException e) {
            throw new IllegalStateException("a key of that kind signs", e);
        }
    }

    /**
     * What is wrong with a file's signature, in words; empty when it holds.
     *
     * @param published the public keys of whom the file is said to be from, a JWK Set
     * @throws IOException when the keys cannot be read
     */
    public static String problem(Path file, Path published) throws IOException {
        JWKSet keys;
        try {
            keys = JWKSet.load(published.toFile());
        } catch (ParseException e) {
            throw new IOException(published + " is no JWK Set; fetch it from /.well-known/jwks.json of the sender", e);
        }
        Path signature = signatureOf(file);
        if (!Files.exists(signature)) {
            return signature + " is not there: nobody vouches for the file; ask its sender for both";
        }
        try {
            JWSObject signed = JWSObject.parse(Files.readString(signature).strip(), content(file));
            JWK key = keys.getKeyByKeyId(signed.getHeader().getKeyID());
            if (key == null) {
                return "it is signed by the key " + signed.getHeader().getKeyID() + ", which is not in " + published
                        + "; fetch the sender's keys anew, and trust it only if it is there";
            }
            return signed.verify(verifier(key))
                    ? ""
                    : "it is not what was signed: do not trust it, find another copy of the file and its signature";
        } catch (ParseException | JOSEException | JacksonException e) {
            return signature + " is no signature of this file: " + e.getMessage() + "; find another copy of both";
        }
    }

    private static JWSVerifier verifier(JWK key) throws JOSEException {
        return key instanceof ECKey curve ? new ECDSAVerifier(curve) : new RSASSAVerifier(key.toRSAKey());
    }

    private static Payload content(Path file) throws IOException {
        return new Payload(CanonicalJson.of(Files.readString(file)));
    }

    private static Path signatureOf(Path file) {
        return file.resolveSibling(file.getFileName() + ".jws");
    }
}
