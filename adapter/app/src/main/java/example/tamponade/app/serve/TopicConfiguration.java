package example.tamponade.app.serve;

import example.tamponade.app.formats.Formats;
import example.tamponade.app.path.EventPath;
import example.tamponade.app.topic.EventTopic;
import example.tamponade.app.topic.TopicSettings;
import org.springframework.boot.autoconfigure.condition.ConditionalOnProperty;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** Wires the topic, where there is one. */
@Configuration(proxyBeanMethods = false)
@ConditionalOnProperty("tamponade.topic.on")
@EnableConfigurationProperties(TopicSettings.class)
class TopicConfiguration {

    @Bean
    EventTopic eventTopic(TopicSettings settings, Formats formats, EventPath path) {
        return new EventTopic(settings, formats, path);
    }
}
