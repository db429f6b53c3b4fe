package example.tamponade.app.topic;

import java.util.Map;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * Where the topic is.
 *
 * @param servers brokers to ask first, {@code host:port} with commas between
 * @param name the topic
 * @param group the consumer group; adapters of one group share the topic's partitions
 * @param consumers how many partitions are read at the same time here
 * @param properties further properties of the consumer, as those for an encrypted connection
 */
@ConfigurationProperties("tamponade.topic")
public record TopicSettings(
        String servers,
        String name,
        String group,
        @DefaultValue("1") int consumers,
        @DefaultValue Map<String, String> properties) {}
