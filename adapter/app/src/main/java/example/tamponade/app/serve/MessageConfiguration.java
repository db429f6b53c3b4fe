package example.tamponade.app.serve;

import example.tamponade.app.formats.Formats;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.message.MessageFormat;
import example.tamponade.app.message.MessageReceiver;
import example.tamponade.app.message.MllpServer;
import example.tamponade.app.path.EventPath;
import example.tamponade.app.web.MessageController;
import java.io.IOException;
import java.net.InetAddress;
import java.time.Clock;
import org.springframework.boot.autoconfigure.condition.ConditionalOnProperty;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** Wires HL7 version 2: over HTTP always, over MLLP where a port is set. */
@Configuration(proxyBeanMethods = false)
class MessageConfiguration {

    @Bean
    MessageReceiver messageReceiver(Formats formats, EventPath path, Clock clock) {
        return new MessageReceiver((MessageFormat) formats.of(InputFormat.MESSAGE), path, clock);
    }

    @Bean
    MessageController messageController(MessageReceiver receiver) {
        return new MessageController(receiver);
    }

    @Bean
    @ConditionalOnProperty("tamponade.mllp.port")
    MllpServer mllpServer(ServerSettings settings, MessageReceiver receiver) throws IOException {
        ServerSettings.Mllp mllp = settings.mllp();
        return new MllpServer(
                InetAddress.getByName(mllp.address()),
                mllp.port(),
                mllp.connections(),
                settings.intake().patience(),
                receiver);
    }
}
