package example.tamponade.app.delivery;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.util.ArrayList;
import java.util.List;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;
import javax.net.ssl.TrustManagerFactory;

/** Certificates of a server and of a client that know each other, made by the JDK's keytool. */
public final class Certificates {

    static final String PASSWORD = "changeit";

    private final Path folder;

    private Certificates(Path folder) {
        this.folder = folder;
    }

    public static Certificates in(Path folder) throws IOException, InterruptedException {
        Certificates made = new Certificates(folder);
        made.pair("server");
        made.pair("client");
        made.trust("server", "client");
        made.trust("client", "server");
        return made;
    }

    /** As those, but the server's ended yesterday, and is of an authority that the client trusts. */
    static Certificates withExpiredServer(Path folder) throws IOException, InterruptedException {
        Certificates made = new Certificates(folder);
        made.pair("server");
        made.pair("client");
        made.pair("authority", "-ext", "bc:c");
        String store = "server.p12";
        made.keytool("-certreq", "-alias", "server", "-file", "server.req", "-keystore", store);
        made.keytool(
                "-gencert",
                "-alias",
                "authority",
                "-infile",
                "server.req",
                "-outfile",
                "signed.cer",
                "-startdate",
                "-3d",
                "-validity",
                "2",
                "-ext",
                "san=dns:localhost",
                "-keystore",
                "authority.p12");
        made.keytool("-importcert", "-noprompt", "-alias", "authority", "-file", "authority.cer", "-keystore", store);
        made.keytool("-importcert", "-noprompt", "-alias", "server", "-file", "signed.cer", "-keystore", store);
        made.trust("server", "client");
        made.trust("client", "authority");
        return made;
    }

    private void pair(String name, String... further) throws IOException, InterruptedException {
        List<String> arguments = new ArrayList<>(List.of(
                "-genkeypair",
                "-alias",
                name,
                "-keyalg",
                "EC",
                "-dname",
                "CN=" + name,
                "-validity",
                "2",
                "-ext",
                "san=dns:localhost",
                "-keystore",
                name + ".p12"));
        arguments.addAll(List.of(further));
        keytool(arguments.toArray(String[]::new));
        keytool("-exportcert", "-alias", name, "-file", name + ".cer", "-keystore", name + ".p12");
    }

    private void trust(String who, String whom) throws IOException, InterruptedException {
        keytool("-importcert", "-noprompt", "-alias", whom, "-file", whom + ".cer", "-keystore", who + "-trusts.p12");
    }

    private void keytool(String... arguments) throws IOException, InterruptedException {
        List<String> command =
                new ArrayList<>(List.of(System.getProperty("java.home") + "/bin/keytool", "-storepass", PASSWORD));
        command.addAll(List.of(arguments));
        Path log = folder.resolve("keytool.log");
        int code = new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .redirectOutput(log.toFile())
                .start()
                .waitFor();
        assertThat(code).as(Files.readString(log)).isZero();
    }

    public SSLContext ofServer() throws IOException, GeneralSecurityException {
        KeyManagerFactory keys = KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
        keys.init(store("server.p12"), PASSWORD.toCharArray());
        TrustManagerFactory trusts = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
        trusts.init(store("server-trusts.p12"));
        SSLContext context = SSLContext.getInstance("TLS");
        context.init(keys.getKeyManagers(), trusts.getTrustManagers(), null);
        return context;
    }

    private KeyStore store(String file) throws IOException, GeneralSecurityException {
        KeyStore store = KeyStore.getInstance("PKCS12");
        try (InputStream in = Files.newInputStream(folder.resolve(file))) {
            store.load(in, PASSWORD.toCharArray());
        }
        return store;
    }

    /** The client's, as settings of the server under the name {@code own}. */
    public List<String> settings() {
        String bundle = "--spring.ssl.bundle.jks.own.";
        return List.of(
                bundle + "keystore.location=file:" + folder.resolve("client.p12"),
                bundle + "keystore.password=" + PASSWORD,
                bundle + "keystore.type=PKCS12",
                bundle + "truststore.location=file:" + folder.resolve("client-trusts.p12"),
                bundle + "truststore.password=" + PASSWORD,
                bundle + "truststore.type=PKCS12");
    }
}
