package example.tamponade.app.delivery;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.hl7v2.AcknowledgmentCode;
import ca.uhn.hl7v2.DefaultHapiContext;
import ca.uhn.hl7v2.ErrorCode;
import ca.uhn.hl7v2.HL7Exception;
import ca.uhn.hl7v2.HapiContext;
import ca.uhn.hl7v2.app.HL7Service;
import ca.uhn.hl7v2.llp.ExtendedMinLowerLayerProtocol;
import ca.uhn.hl7v2.model.Message;
import ca.uhn.hl7v2.model.v251.group.ORU_R01_ORDER_OBSERVATION;
import ca.uhn.hl7v2.model.v251.message.ORU_R01;
import ca.uhn.hl7v2.protocol.ReceivingApplication;
import ca.uhn.hl7v2.util.idgenerator.InMemoryIDGenerator;
import ca.uhn.hl7v2.validation.impl.ValidationContextFactory;
import example.tamponade.app.Samples;
import example.tamponade.app.crash.Waiting;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.serve.RunningServer;
import java.io.IOException;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Queue;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentLinkedQueue;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.Test;

/** An older system that reads result messages: the HL7 library's server, which checks each as the standard asks. */
class MessageDeliveryIT {

    private static final Duration LONGEST = Duration.ofMinutes(1);
    private static final List<String> LINES = new String(Samples.events("referred"), StandardCharsets.UTF_8)
            .lines()
            .toList();

    @Test
    void derivedValuesAndWarningsArriveAsTheyStandOnRecord() throws Exception {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                OlderSystem system = OlderSystem.start();
                RunningServer server = RunningServer.start(database, address(system))) {
            for (int from = 0; from < LINES.size(); from += 40) {
                send(server, from, Math.min(LINES.size(), from + 40));
            }

            assertThat(system.values()).hasSizeGreaterThan(200).isEqualTo(valuesOnRecord(database));
            assertThat(system.standing()).isNotEmpty().isEqualTo(standingOnRecord(database));
            ORU_R01 last = system.messages().get(system.messages().size() - 1);
            assertThat(last.getPATIENT_RESULT()
                            .getPATIENT()
                            .getPID()
                            .getPatientIdentifierList(0)
                            .getIDNumber()
                            .getValue())
                    .isEqualTo("0048/26");
            assertThat(last.encode())
                    .contains("MRX-2026-0048^^^marrowby-cross")
                    .contains("Decision support for review by licensed clinicians")
                    .contains("UNICODE UTF-8")
                    .contains("Maëlis");
        }
    }

    // HL7 2.5.1, table 0008: application error, application reject.
    @Test
    void whatIsRefusedIsParkedAndWhatCouldNotBeProcessedComesAgain() throws Exception {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                OlderSystem system = OlderSystem.start();
                RunningServer server =
                        RunningServer.start(database, address(system), "--tamponade.destinations.monitor.pause=50ms")) {
            system.answer(AcknowledgmentCode.AR, ErrorCode.APPLICATION_INTERNAL_ERROR);
            send(server, 0, 40);
            assertThat(numbers(system.messages()))
                    .hasSize(2)
                    .containsOnly(numbers(system.messages()).get(0));

            system.answer(AcknowledgmentCode.AE, ErrorCode.UNKNOWN_KEY_IDENTIFIER);
            server.post("application/x-ndjson", lines(40, 80));
            Waiting.until(
                    LONGEST,
                    "the case is parked",
                    () -> server.get("/deliveries/monitor?state=parked").body().contains("Unknown key identifier"));
            server.post("/deliveries/monitor/release", "application/json", new byte[0]);
            send(server, 80, LINES.size());
            assertThat(system.values()).isEqualTo(valuesOnRecord(database));
        }
    }

    private static List<String> numbers(List<ORU_R01> messages) {
        return messages.stream()
                .map(it -> it.getMSH().getMessageControlID().getValue())
                .toList();
    }

    private static String address(OlderSystem system) {
        return "--tamponade.destinations.monitor.address=mllp://127.0.0.1:" + system.port;
    }

    private static byte[] lines(int from, int to) {
        return String.join("\n", LINES.subList(from, to)).getBytes(StandardCharsets.UTF_8);
    }

    private static void send(RunningServer server, int from, int to) {
        server.post("application/x-ndjson", lines(from, to));
        Waiting.until(
                LONGEST,
                "the record is delivered",
                () -> server.get("/ledger").body().contains("\"casesBehind\":0")
                        && server.get("/deliveries").body().contains("\"resources\":0"));
    }

    // Every derived amount by its id, with its status in table 0085; absent ones with none.
    private static Map<String, String> valuesOnRecord(TestDatabase database) {
        Map<String, String> values = new TreeMap<>();
        for (Resource resource : onRecord(database)) {
            if (resource instanceof Observation observation
                    && observation.getSubject().getReference().startsWith("Patient/")
                    && observation.getCode().getCoding().stream()
                            .anyMatch(it -> it.getSystem().endsWith("/derived-fact"))
                    && observation.getValue() instanceof Quantity quantity) {
                String status = switch (observation.getStatus()) {
                    case AMENDED -> "C";
                    case ENTEREDINERROR -> "W";
                    default -> "F";
                };
                values.put(
                        observation.getIdPart(),
                        quantity.getValue().toPlainString() + " " + quantity.getCode() + " " + status);
            }
        }
        return values;
    }

    private static Set<String> standingOnRecord(TestDatabase database) {
        Set<String> standing = new TreeSet<>();
        for (Resource resource : onRecord(database)) {
            if (resource instanceof Flag flag
                    && flag.getStatus() == Flag.FlagStatus.ACTIVE
                    && flag.getSubject().getReference().startsWith("Patient/")) {
                standing.add(flag.getCode().getText() + " "
                        + flag.getPeriod().getStartElement().getValueAsString());
            }
        }
        return standing;
    }

    private static List<Resource> onRecord(TestDatabase database) {
        return Arrival.onRecord(database).values().stream()
                .map(it -> (Resource) FhirContext.forR4Cached().newJsonParser().parseResource(it))
                .toList();
    }

    private static final class OlderSystem implements ReceivingApplication<Message>, AutoCloseable {

        private final HapiContext hl7 = new DefaultHapiContext(ValidationContextFactory.defaultValidation());
        private final Queue<ORU_R01> messages = new ConcurrentLinkedQueue<>();
        private final Queue<ORU_R01> taken = new ConcurrentLinkedQueue<>();
        private final int port;
        private final HL7Service service;
        private volatile AcknowledgmentCode next = AcknowledgmentCode.AA;
        private volatile ErrorCode error = ErrorCode.MESSAGE_ACCEPTED;

        private OlderSystem() throws IOException, InterruptedException {
            try (ServerSocket socket = new ServerSocket(0)) {
                port = socket.getLocalPort();
            }
            // Reads each message in the character set that its MSH-18 names.
            hl7.setLowerLayerProtocol(new ExtendedMinLowerLayerProtocol());
            // Otherwise the library keeps the numbers of its acknowledgements in a file of the working folder.
            hl7.getParserConfiguration().setIdGenerator(new InMemoryIDGenerator());
            service = hl7.newServer(port, false);
            service.registerApplication("ORU", "R01", this);
            service.startAndWait();
        }

        static OlderSystem start() throws IOException, InterruptedException {
            return new OlderSystem();
        }

        /** Answers the next message so. */
        void answer(AcknowledgmentCode code, ErrorCode why) {
            error = why;
            next = code;
        }

        List<ORU_R01> messages() {
            return List.copyOf(messages);
        }

        @Override
        public Message processMessage(Message message, Map<String, Object> metadata) throws HL7Exception {
            ORU_R01 result = (ORU_R01) message;
            messages.add(result);
            AcknowledgmentCode code = next;
            next = AcknowledgmentCode.AA;
            try {
                if (code == AcknowledgmentCode.AA) {
                    taken.add(result);
                    return message.generateACK();
                }
                return message.generateACK(code, new HL7Exception("no", error));
            } catch (IOException e) {
                throw new HL7Exception(e);
            }
        }

        @Override
        public boolean canProcess(Message message) {
            return true;
        }

        /** The latest of each value. */
        Map<String, String> values() {
            Map<String, String> values = new TreeMap<>();
            taken.forEach(message -> groups(message).forEach(group -> {
                var value = group.getOBSERVATION(0).getOBX();
                String id = group.getOBR()
                        .getFillerOrderNumber()
                        .getEntityIdentifier()
                        .getValue();
                if ("NM".equals(value.getValueType().getValue())) {
                    values.put(
                            id,
                            value.getObservationValue(0).getData() + " "
                                    + value.getUnits().getIdentifier().getValue() + " "
                                    + value.getObservationResultStatus().getValue());
                }
            }));
            return values;
        }

        /** The warnings that stand by the latest note of each. */
        Set<String> standing() {
            Map<String, Boolean> stands = new TreeMap<>();
            taken.forEach(message -> groups(message).forEach(group -> {
                for (int i = 0; i < group.getNTEReps(); i++) {
                    String words = group.getNTE(i).getComment(0).getValue();
                    String since =
                            words.replaceFirst("^[a-z]+: (.*) \\((?:stands since|from) (\\S+)(?: to .*)?\\)$", "$1 $2");
                    stands.put(since, words.contains("(stands since "));
                }
            }));
            Set<String> standing = new TreeSet<>();
            stands.forEach((words, isSo) -> {
                if (isSo) {
                    standing.add(words);
                }
            });
            return standing;
        }

        private static List<ORU_R01_ORDER_OBSERVATION> groups(ORU_R01 message) {
            try {
                return message.getPATIENT_RESULT().getORDER_OBSERVATIONAll();
            } catch (HL7Exception e) {
                throw new IllegalStateException(e);
            }
        }

        @Override
        public void close() throws IOException {
            service.stopAndWait();
            hl7.close();
        }
    }
}
