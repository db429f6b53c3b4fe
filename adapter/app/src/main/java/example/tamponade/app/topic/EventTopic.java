package example.tamponade.app.topic;

import example.tamponade.app.access.Caller;
import example.tamponade.app.formats.Formats;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.machine.Memory;
import example.tamponade.app.path.EventPath;
import example.tamponade.app.path.IntakeWriter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.kafka.clients.consumer.ConsumerConfig;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.common.serialization.ByteArrayDeserializer;
import org.apache.kafka.common.serialization.StringDeserializer;
import org.jspecify.annotations.Nullable;
import org.springframework.context.SmartLifecycle;
import org.springframework.kafka.core.DefaultKafkaConsumerFactory;
import org.springframework.kafka.listener.BatchMessageListener;
import org.springframework.kafka.listener.ConcurrentMessageListenerContainer;
import org.springframework.kafka.listener.ContainerProperties;
import org.springframework.kafka.listener.DefaultErrorHandler;
import org.springframework.util.backoff.FixedBackOff;

/** Takes what comes on the topic, from start to stop of the server. */
public final class EventTopic implements SmartLifecycle {

    private static final long TRY_AGAIN_MS = 2000;

    private final TopicRecords records;
    private final EventPath path;
    private final Caller by;
    private final ConcurrentMessageListenerContainer<String, byte[]> container;

    /** Reads the topic of these settings and hands what comes to that path. */
    public EventTopic(TopicSettings settings, Formats formats, EventPath path) {
        this.records = new TopicRecords(formats);
        this.path = path;
        this.by = Caller.by("topic", settings.name());
        this.container = container(settings);
    }

    private ConcurrentMessageListenerContainer<String, byte[]> container(TopicSettings settings) {
        Map<String, Object> consumer = new HashMap<>(settings.properties());
        consumer.put(ConsumerConfig.BOOTSTRAP_SERVERS_CONFIG, settings.servers());
        consumer.put(ConsumerConfig.GROUP_ID_CONFIG, settings.group());
        consumer.put(ConsumerConfig.ENABLE_AUTO_COMMIT_CONFIG, false);
        consumer.put(ConsumerConfig.AUTO_OFFSET_RESET_CONFIG, "earliest");
        consumer.put(ConsumerConfig.MAX_POLL_RECORDS_CONFIG, IntakeWriter.COMMIT_SIZE);
        ContainerProperties properties = new ContainerProperties(settings.name());
        properties.setAckMode(ContainerProperties.AckMode.BATCH);
        properties.setMessageListener((BatchMessageListener<String, byte[]>) this::takeOrEnd);
        ConcurrentMessageListenerContainer<String, byte[]> made = new ConcurrentMessageListenerContainer<>(
                new DefaultKafkaConsumerFactory<>(consumer, new StringDeserializer(), new ByteArrayDeserializer()),
                properties);
        made.setConcurrency(settings.consumers());
        // What could not be written is asked for again until it can: nothing is passed over.
        made.setCommonErrorHandler(
                new DefaultErrorHandler(new FixedBackOff(TRY_AGAIN_MS, FixedBackOff.UNLIMITED_ATTEMPTS)));
        return made;
    }

    private void takeOrEnd(List<ConsumerRecord<String, byte @Nullable []>> delivered) {
        try {
            take(delivered);
        } catch (OutOfMemoryError e) {
            Memory.endIfExhausted(e);
        }
    }

    private void take(List<ConsumerRecord<String, byte @Nullable []>> delivered) {
        List<Piece> pieces = new ArrayList<>();
        delivered.forEach(it -> pieces.addAll(records.pieces(it)));
        for (int from = 0; from < pieces.size(); from += IntakeWriter.COMMIT_SIZE) {
            path.take(by, pieces.subList(from, Math.min(pieces.size(), from + IntakeWriter.COMMIT_SIZE)));
        }
    }

    @Override
    public void start() {
        container.start();
    }

    @Override
    public void stop() {
        container.stop();
    }

    @Override
    public boolean isRunning() {
        return container.isRunning();
    }
}
