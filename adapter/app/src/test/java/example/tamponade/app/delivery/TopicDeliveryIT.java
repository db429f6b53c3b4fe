package example.tamponade.app.delivery;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import example.tamponade.app.crash.Waiting;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.serve.RunningServer;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.kafka.clients.consumer.Consumer;
import org.apache.kafka.clients.consumer.ConsumerConfig;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.clients.consumer.ConsumerRecords;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.common.serialization.StringDeserializer;
import org.junit.jupiter.api.Test;
import org.springframework.kafka.test.EmbeddedKafkaKraftBroker;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A topic of a real broker. */
class TopicDeliveryIT {

    private static final Duration LONGEST = Duration.ofMinutes(1);
    private static final int EMPTY_POLLS = 3;

    @Test
    void whatGoesOnRecordIsOnTheTopicKeyedByCase() {
        EmbeddedKafkaKraftBroker broker = new EmbeddedKafkaKraftBroker(1, 3, "record");
        broker.afterPropertiesSet();
        String address = "--tamponade.destinations.topic.address=kafka://" + broker.getBrokersAsString() + "/record";
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(database, address)) {
            server.post("application/x-ndjson", Samples.events("referred"));
            server.post("application/x-ndjson", Samples.events("settled"));
            Waiting.until(
                    LONGEST,
                    "the record is delivered",
                    () -> server.get("/ledger").body().contains("\"casesBehind\":0")
                            && server.get("/deliveries").body().contains("\"resources\":0"));

            Map<String, String> latest = new TreeMap<>();
            for (ConsumerRecord<String, String> one : records(broker)) {
                assertThat(one.key()).matches("(case|facility)/.*");
                assertThat(one.headers().lastHeader("content-type").value())
                        .isEqualTo("application/fhir+json".getBytes(StandardCharsets.UTF_8));
                JsonNode resource = JsonMapper.shared().readTree(one.value());
                latest.put(
                        resource.path("resourceType").asString() + "/"
                                + resource.path("id").asString(),
                        one.value());
            }
            assertThat(Arrival.differences(Arrival.onRecord(database), latest)).isEmpty();
        } finally {
            broker.destroy();
        }
    }

    private static List<ConsumerRecord<String, String>> records(EmbeddedKafkaKraftBroker broker) {
        List<ConsumerRecord<String, String>> records = new ArrayList<>();
        Map<String, Object> settings = Map.of(
                ConsumerConfig.BOOTSTRAP_SERVERS_CONFIG,
                broker.getBrokersAsString(),
                ConsumerConfig.GROUP_ID_CONFIG,
                "test",
                ConsumerConfig.AUTO_OFFSET_RESET_CONFIG,
                "earliest");
        try (Consumer<String, String> consumer =
                new KafkaConsumer<>(settings, new StringDeserializer(), new StringDeserializer())) {
            consumer.subscribe(List.of("record"));
            int empty = 0;
            while (records.isEmpty() || empty < EMPTY_POLLS) {
                ConsumerRecords<String, String> polled = consumer.poll(Duration.ofSeconds(1));
                polled.forEach(records::add);
                empty = polled.isEmpty() ? empty + 1 : 0;
            }
        }
        return records;
    }
}
