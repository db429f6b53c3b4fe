package example.tamponade.app.delivery;

import example.tamponade.app.outbox.Held;
import example.tamponade.fhir.conformance.ResourceText;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.Producer;
import org.apache.kafka.clients.producer.ProducerConfig;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.KafkaException;
import org.apache.kafka.common.errors.InterruptException;
import org.apache.kafka.common.errors.RecordTooLargeException;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.apache.kafka.common.serialization.StringSerializer;
import org.hl7.fhir.r4.model.Resource;

/**
 * A Kafka topic, keyed by case, so that what is of one case stays in order. A record's value is a resource in JSON; where the
 * broker did not say that it has them, they are sent again.
 */
final class TopicReceiver implements Receiver {

    private static final byte[] FHIR_JSON = FhirServer.FHIR_JSON.toString().getBytes(StandardCharsets.UTF_8);

    private final Producer<String, byte[]> producer;
    private final String topic;
    private final Duration patience;

    /**
     * The topic that is the path of a {@code kafka} address.
     *
     * @param properties further properties of the producer, as those for an encrypted connection
     */
    TopicReceiver(URI address, Map<String, String> properties, Duration patience) {
        Map<String, Object> settings = new HashMap<>(properties);
        settings.put(ProducerConfig.BOOTSTRAP_SERVERS_CONFIG, address.getHost() + ":" + address.getPort());
        settings.put(ProducerConfig.ACKS_CONFIG, "all");
        settings.put(ProducerConfig.ENABLE_IDEMPOTENCE_CONFIG, true);
        settings.put(ProducerConfig.LINGER_MS_CONFIG, 0);
        settings.put(ProducerConfig.MAX_BLOCK_MS_CONFIG, patience.toMillis());
        settings.put(ProducerConfig.REQUEST_TIMEOUT_MS_CONFIG, (int) patience.toMillis());
        settings.put(ProducerConfig.DELIVERY_TIMEOUT_MS_CONFIG, (int) patience.toMillis());
        this.producer = new KafkaProducer<>(settings, new StringSerializer(), new ByteArraySerializer());
        this.topic = address.getPath().substring(1);
        this.patience = patience;
    }

    @Override
    public Answer put(String caseKey, List<Resource> resources, Map<String, Held> there) {
        try {
            List<Future<?>> sent = new ArrayList<>();
            for (Resource resource : resources) {
                byte[] json = ResourceText.of(resource).json().getBytes(StandardCharsets.UTF_8);
                ProducerRecord<String, byte[]> one = new ProducerRecord<>(topic, caseKey, json);
                one.headers().add("content-type", FHIR_JSON);
                sent.add(producer.send(one));
            }
            for (Future<?> one : sent) {
                one.get(patience.toMillis(), TimeUnit.MILLISECONDS);
            }
            return Answer.taken(resources.size());
        } catch (ExecutionException e) {
            return failed(e.getCause() == null ? e : e.getCause());
        } catch (KafkaException | TimeoutException e) {
            return failed(e);
        } catch (InterruptedException e) {
            throw new InterruptException(e);
        }
    }

    private static Answer failed(Throwable failure) {
        String words = failure.getClass().getSimpleName() + ": " + failure.getMessage();
        return failure instanceof RecordTooLargeException
                ? Answer.of(Answer.Kind.REFUSED, words + "; let the topic take larger records")
                : Answer.unavailable(
                        "the topic took nothing (" + words + "); check the brokers and the topic. It is tried again",
                        null);
    }

    @Override
    public Map<String, String> versions(Map<String, Held> known) {
        return Map.of();
    }

    @Override
    public void close() {
        producer.close(Duration.ZERO);
    }
}
