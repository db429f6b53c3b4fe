package example.tamponade.app.serve;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import example.tamponade.app.database.TestDatabase;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutionException;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerConfig;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.apache.kafka.common.serialization.StringSerializer;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.springframework.kafka.test.EmbeddedKafkaBroker;
import org.springframework.kafka.test.EmbeddedKafkaKraftBroker;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A real broker in this process. */
class TopicIT {

    private static final EmbeddedKafkaBroker BROKER = new EmbeddedKafkaKraftBroker(1, 2, "one", "two");

    @BeforeAll
    static void startTheBroker() {
        BROKER.afterPropertiesSet();
    }

    @AfterAll
    static void stopTheBroker() {
        BROKER.destroy();
    }

    @Test
    void takesWhatComesOnceAndCommitsItsOffsetsBehindIt() throws Exception {
        List<String> lines = Arrays.asList(new String(Samples.events("settled"), UTF_8).split("\n"));
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            try (RunningServer server = start(database, "one")) {
                send("one", lines.subList(0, 40));
                send("one", lines.subList(20, 60));
                send("one", List.of("{\"broken\":", ""));
                waitFor(server, 60, 2);
                waitForOffsets("adapters-of-one", 82);
            }
            send("one", lines.subList(60, 70));
            try (RunningServer server = start(database, "one")) {
                waitFor(server, 70, 2);
                JsonNode refused =
                        JsonMapper.shared().readTree(server.get("/quarantine").body());
                assertThat(refused.get(0).path("place").asString()).contains("one partition", "offset");
            }
        }
    }

    @Test
    void asksAgainForWhatCouldNotBeWritten() throws Exception {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.POSTGRESQL);
                RunningServer server = start(database, "two")) {
            waitForAnswer(server);
            database.refuseConnections();
            send("two", List.of(new String(Samples.events("referred"), UTF_8).split("\n")[3]));
            assertThat(server.post(new String(Samples.events("referred"), UTF_8).split("\n")[4])
                            .statusCode())
                    .isEqualTo(503);
            database.allowConnections();

            while (!server.get("/cases").body().contains("MRX-2026-0048")) {
                Thread.sleep(100);
            }
        }
    }

    private static void waitForAnswer(RunningServer server) {
        assertThat(server.get("/cases").statusCode()).isEqualTo(200);
    }

    private static RunningServer start(TestDatabase database, String topic) {
        return RunningServer.start(
                database,
                "--tamponade.topic.on=true",
                "--tamponade.topic.servers=" + BROKER.getBrokersAsString(),
                "--tamponade.topic.name=" + topic,
                "--tamponade.topic.group=adapters-of-" + topic);
    }

    private static void send(String topic, List<String> values) throws ExecutionException, InterruptedException {
        try (KafkaProducer<String, byte[]> producer = new KafkaProducer<>(
                Map.of(ProducerConfig.BOOTSTRAP_SERVERS_CONFIG, BROKER.getBrokersAsString()),
                new StringSerializer(),
                new ByteArraySerializer())) {
            for (String value : values) {
                JsonNode event = value.endsWith("}")
                        ? JsonMapper.shared().readTree(value)
                        : JsonMapper.shared().nullNode();
                producer.send(new ProducerRecord<>(topic, event.path("caseId").asString("none"), value.getBytes(UTF_8)))
                        .get();
            }
        }
    }

    private static void waitFor(RunningServer server, long events, long refused) throws InterruptedException {
        JsonNode ledger = JsonMapper.shared().readTree(server.get("/ledger").body());
        while (ledger.path("events").asLong() < events
                || ledger.path("openInQuarantine").asLong() < refused) {
            Thread.sleep(100);
            ledger = JsonMapper.shared().readTree(server.get("/ledger").body());
        }
        assertThat(ledger.path("events").asLong()).isEqualTo(events);
        assertThat(ledger.path("openInQuarantine").asLong()).isEqualTo(refused);
    }

    private static void waitForOffsets(String group, long records) throws ExecutionException, InterruptedException {
        try (Admin admin = Admin.create(Map.of("bootstrap.servers", BROKER.getBrokersAsString()))) {
            while (committed(admin, group) < records) {
                Thread.sleep(100);
            }
            assertThat(committed(admin, group)).isEqualTo(records);
        }
    }

    private static long committed(Admin admin, String group) throws ExecutionException, InterruptedException {
        return admin.listConsumerGroupOffsets(group).partitionsToOffsetAndMetadata().get().values().stream()
                .mapToLong(it -> it.offset())
                .sum();
    }
}
