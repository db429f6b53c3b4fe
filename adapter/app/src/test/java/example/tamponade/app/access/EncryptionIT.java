package example.tamponade.app.access;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import example.tamponade.app.Samples;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.delivery.Certificates;
import example.tamponade.app.message.MllpServer;
import example.tamponade.app.serve.RunningServer;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLException;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.TrustManagerFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The server on a network: HTTP and MLLP over TLS, with real certificates. */
class EncryptionIT {

    @TempDir
    private Path folder;

    @Test
    void speaksTlsOnANetworkAndKnowsSendersOverMllpByTheirCertificates() throws Exception {
        Certificates certificates = Certificates.in(folder);
        List<String> settings = new ArrayList<>();
        certificates.settings().forEach(it -> settings.add(it.startsWith("--") ? it : "--" + it));
        settings.addAll(List.of(
                "--server.address=0.0.0.0",
                "--server.ssl.bundle=own",
                "--tamponade.mllp.port=0",
                "--tamponade.mllp.address=0.0.0.0",
                "--tamponade.mllp.tls=own"));
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(database, settings.toArray(String[]::new))) {
            SSLContext known = certificates.ofServer();
            HttpClient client = HttpClient.newBuilder().sslContext(known).build();
            assertThat(client.send(
                                    HttpRequest.newBuilder(URI.create("https://localhost:" + server.port() + "/cases"))
                                            .header("Authorization", server.login())
                                            .build(),
                                    HttpResponse.BodyHandlers.ofString())
                            .statusCode())
                    .isEqualTo(200);

            int mllp = server.part(MllpServer.class).port();
            assertThat(acknowledgement(known, mllp)).contains("MSA|A");
            assertThat(client.send(
                                    HttpRequest.newBuilder(URI.create(
                                                    "https://localhost:" + server.port() + "/fhir/AuditEvent"))
                                            .header("Authorization", server.login())
                                            .build(),
                                    HttpResponse.BodyHandlers.ofString())
                            .body())
                    .contains("\"name\":\"mllp CN=server\"");
            assertThatThrownBy(() -> acknowledgement(unknown(), mllp))
                    .as("no certificate")
                    .isInstanceOfAny(SSLException.class, IOException.class);
        }
    }

    // One that knows whom to trust and has nothing to show.
    private SSLContext unknown() throws Exception {
        java.security.KeyStore trusted = java.security.KeyStore.getInstance("PKCS12");
        try (var in = java.nio.file.Files.newInputStream(folder.resolve("server-trusts.p12"))) {
            trusted.load(in, "changeit".toCharArray());
        }
        TrustManagerFactory trusts = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
        trusts.init(trusted);
        SSLContext context = SSLContext.getInstance("TLS");
        context.init(null, trusts.getTrustManagers(), null);
        return context;
    }

    private static String acknowledgement(SSLContext context, int port) throws IOException {
        try (SSLSocket socket = (SSLSocket) context.getSocketFactory().createSocket("localhost", port)) {
            socket.setSoTimeout(20_000);
            socket.getOutputStream()
                    .write(("\u000b" + new String(Samples.message("settled"), UTF_8) + "\u001c\r").getBytes(UTF_8));
            socket.getOutputStream().flush();
            byte[] answer = new byte[4096];
            int read = socket.getInputStream().read(answer);
            if (read < 0) {
                throw new IOException("the connection was closed");
            }
            return new String(answer, 0, read, UTF_8);
        }
    }
}
