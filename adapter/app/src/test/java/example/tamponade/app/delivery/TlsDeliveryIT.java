package example.tamponade.app.delivery;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.hl7v2.DefaultHapiContext;
import ca.uhn.hl7v2.HapiContext;
import ca.uhn.hl7v2.app.HL7Service;
import ca.uhn.hl7v2.protocol.ReceivingApplication;
import ca.uhn.hl7v2.util.StandardSocketFactory;
import ca.uhn.hl7v2.util.idgenerator.InMemoryIDGenerator;
import example.tamponade.app.Samples;
import example.tamponade.app.crash.Waiting;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.serve.RunningServer;
import java.io.IOException;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLServerSocket;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Destinations that ask for a certificate of whoever comes. */
class TlsDeliveryIT {

    private static final Duration LONGEST = Duration.ofMinutes(1);

    @TempDir
    private Path folder;

    @Test
    void aFhirServerIsSentToWithTheAdaptersOwnCertificate() throws Exception {
        Certificates certificates = Certificates.in(folder);
        try (FhirStore store = FhirStore.start(certificates.ofServer())) {
            String address = "https://localhost:" + store.port() + "/fhir";
            try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                    RunningServer server = RunningServer.start(database, settings(certificates, address, "own"))) {
                send(server);
                waitFor(server, "\"resources\":0");
                Arrival.assertArrived(database, store);
            }
            try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                    RunningServer server = RunningServer.start(database, settings(certificates, address, ""))) {
                send(server);
                waitFor(server, "no answer (SSLHandshakeException");
            }
        }
    }

    @Test
    void aServerWhoseCertificateHasEndedIsSentNothingUntilItHasAnother() throws Exception {
        Certificates ended = Certificates.withExpiredServer(folder);
        try (FhirStore store = FhirStore.start(ended.ofServer());
                TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            String address = "https://localhost:" + store.port() + "/fhir";
            try (RunningServer server = RunningServer.start(database, settings(ended, address, "own"))) {
                send(server);
                waitFor(server, "no answer (SSLHandshakeException");
                assertThat(server.get("/deliveries").body()).contains("validity check failed");
            }
            assertThat(store.latest()).isEmpty();
        }
    }

    @Test
    void anAddressThatNobodyKnowsKeepsNothingElseWaiting() throws Exception {
        try (FhirStore store = FhirStore.start();
                TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            String setting = "--tamponade.destinations.record.address=";
            // No name ends so (RFC 6761).
            try (RunningServer server = RunningServer.start(database, setting + "https://record.invalid/fhir")) {
                send(server);
                waitFor(server, "no answer (");
                assertThat(server.get("/deliveries").body()).doesNotContain("\"resources\":0");
            }
            try (RunningServer server =
                    RunningServer.start(database, setting + "http://127.0.0.1:" + store.port() + "/fhir")) {
                waitFor(server, "\"resources\":0");
                Arrival.assertArrived(database, store);
            }
        }
    }

    @Test
    void anOlderSystemIsSentToWithTheAdaptersOwnCertificateAndMustBeWhoItIs() throws Exception {
        Certificates certificates = Certificates.in(folder);
        int port = freePort();
        try (HapiContext hl7 = new DefaultHapiContext()) {
            hl7.setSocketFactory(new Demanding(certificates.ofServer()));
            hl7.getParserConfiguration().setIdGenerator(new InMemoryIDGenerator());
            HL7Service service = hl7.newServer(port, true);
            service.registerApplication("ORU", "R01", new Acknowledging());
            service.startAndWait();
            try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                    RunningServer server =
                            RunningServer.start(database, settings(certificates, "mllps://localhost:" + port, "own"))) {
                send(server);
                waitFor(server, "\"resources\":0");
            }
            // The certificate is trusted, and is of another name.
            try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                    RunningServer server =
                            RunningServer.start(database, settings(certificates, "mllps://127.0.0.1:" + port, "own"))) {
                send(server);
                waitFor(server, "no acknowledgement (");
                assertThat(server.get("/deliveries").body()).doesNotContain("\"resources\":0");
            }
            service.stopAndWait();
        }
    }

    private static void send(RunningServer server) {
        server.post("application/x-ndjson", Samples.events("referred"));
        Waiting.until(
                LONGEST,
                "the record is whole",
                () -> server.get("/ledger").body().contains("\"casesBehind\":0"));
    }

    private static void waitFor(RunningServer server, String words) {
        Waiting.until(LONGEST, words, () -> server.get("/deliveries").body().contains(words));
    }

    private static String[] settings(Certificates certificates, String address, String bundle) {
        List<String> settings = new ArrayList<>(certificates.settings());
        settings.add("--tamponade.destinations.record.address=" + address);
        settings.add("--tamponade.destinations.record.tls=" + bundle);
        settings.add("--tamponade.destinations.record.pause=50ms");
        return settings.toArray(String[]::new);
    }

    private static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0)) {
            return socket.getLocalPort();
        }
    }

    private static final class Demanding extends StandardSocketFactory {

        private final SSLContext tls;

        Demanding(SSLContext tls) {
            this.tls = tls;
        }

        @Override
        public ServerSocket createTlsServerSocket() throws IOException {
            SSLServerSocket socket =
                    (SSLServerSocket) tls.getServerSocketFactory().createServerSocket();
            socket.setNeedClientAuth(true);
            return socket;
        }
    }

    private static final class Acknowledging implements ReceivingApplication<ca.uhn.hl7v2.model.Message> {

        @Override
        public ca.uhn.hl7v2.model.Message processMessage(
                ca.uhn.hl7v2.model.Message message, java.util.Map<String, Object> metadata)
                throws ca.uhn.hl7v2.HL7Exception {
            try {
                return message.generateACK();
            } catch (IOException e) {
                throw new ca.uhn.hl7v2.HL7Exception(e);
            }
        }

        @Override
        public boolean canProcess(ca.uhn.hl7v2.model.Message message) {
            return true;
        }
    }
}
