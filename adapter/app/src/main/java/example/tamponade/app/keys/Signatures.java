package example.tamponade.app.keys;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.Key;
import java.security.KeyFactory;
import java.security.PrivateKey;
import java.security.PublicKey;
import java.security.Signature;
import java.security.spec.PKCS8EncodedKeySpec;
import java.security.spec.X509EncodedKeySpec;
import java.util.Base64;

/**
 * Signatures of files that are kept elsewhere: Ed25519 (RFC 8032) over the bytes of the file, 64 bytes in a file beside it.
 * Keys are PEM files (RFC 7468) of PKCS #8 and SubjectPublicKeyInfo, as the usual tools write and check them.
 */
public final class Signatures {

    private static final String ALGORITHM = "Ed25519";

    private Signatures() {}

    /**
     * Writes a file's signature beside it.
     *
     * @throws IOException when the key or the file cannot be read, or is not such a key
     */
    public static void sign(Path file, Path privateKey) throws IOException {
        try {
            Signature signature = Signature.getInstance(ALGORITHM);
            signature.initSign((PrivateKey) key(privateKey, "PRIVATE KEY"));
            signature.update(Files.readAllBytes(file));
            Files.write(signatureOf(file), signature.sign());
        } catch (GeneralSecurityException e) {
            throw notAKey(privateKey, e);
        }
    }

    /**
     * Checks a file's signature.
     *
     * @throws IOException when it is not the signature of that file by that key, or cannot be read
     */
    public static void check(Path file, Path publicKey) throws IOException {
        byte[] signed = Files.readAllBytes(signatureOf(file));
        if (!isSigned(Files.readAllBytes(file), signed, publicKey)) {
            throw new IOException(signatureOf(file) + " is not the signature of " + file + " by the key in " + publicKey
                    + ": do not trust it, find another copy of both files");
        }
    }

    private static boolean isSigned(byte[] content, byte[] signed, Path publicKey) throws IOException {
        Signature signature;
        try {
            signature = Signature.getInstance(ALGORITHM);
            signature.initVerify((PublicKey) key(publicKey, "PUBLIC KEY"));
            signature.update(content);
        } catch (GeneralSecurityException e) {
            throw notAKey(publicKey, e);
        }
        try {
            return signature.verify(signed);
        } catch (GeneralSecurityException e) {
            // Of another length than a signature has.
            return false;
        }
    }

    private static Path signatureOf(Path file) {
        return file.resolveSibling(file.getFileName() + ".sig");
    }

    private static Key key(Path file, String label) throws IOException, GeneralSecurityException {
        String pem = Files.readString(file);
        String begin = "-----BEGIN " + label + "-----";
        int from = pem.indexOf(begin);
        int to = pem.indexOf("-----END " + label + "-----");
        if (from < 0 || to < from) {
            throw new GeneralSecurityException("no " + begin);
        }
        byte[] encoded = Base64.getMimeDecoder().decode(pem.substring(from + begin.length(), to));
        KeyFactory keys = KeyFactory.getInstance(ALGORITHM);
        return "PRIVATE KEY".equals(label)
                ? keys.generatePrivate(new PKCS8EncodedKeySpec(encoded))
                : keys.generatePublic(new X509EncodedKeySpec(encoded));
    }

    private static IOException notAKey(Path file, GeneralSecurityException cause) {
        return new IOException(
                file + " does not hold an Ed25519 key in PEM form of the kind needed; make one with"
                        + " `openssl genpkey -algorithm ed25519`",
                cause);
    }
}
