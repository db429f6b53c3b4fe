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
import javax.net.ServerSocketFactory;
import org.springframework.boot.autoconfigure.condition.ConditionalOnProperty;
import org.springframework.boot.ssl.SslBundles;
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
    MllpServer mllpServer(ServerSettings settings, SslBundles bundles, MessageReceiver receiver) throws IOException {
        ServerSettings.Mllp mllp = settings.mllp();
        InetAddress address = InetAddress.getByName(mllp.address());
        String tls = mllp.tls() == null ? "" : mllp.tls();
        settings.access().demandEncryption(address, !tls.isBlank(), "tamponade.mllp.tls");
        return new MllpServer(
                sockets(tls, bundles),
                address,
                mllp.port(),
                mllp.connections(),
                settings.intake().patience(),
                receiver);
    }

    private static ServerSocketFactory sockets(String tls, SslBundles bundles) {
        return tls.isBlank()
                ? ServerSocketFactory.getDefault()
                : bundles.getBundle(tls).createSslContext().getServerSocketFactory();
    }
}
