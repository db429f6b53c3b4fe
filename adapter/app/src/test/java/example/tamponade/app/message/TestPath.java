package example.tamponade.app.message;

import example.tamponade.app.path.EventPath;
import example.tamponade.app.serve.ServerConfiguration;
import java.nio.file.Path;
import org.springframework.boot.SpringApplication;
import org.springframework.context.ConfigurableApplicationContext;

/** The server's own path of events on a database in a folder, for the ways in that are tested against it. */
final class TestPath implements AutoCloseable {

    private final ConfigurableApplicationContext context;

    private TestPath(ConfigurableApplicationContext context) {
        this.context = context;
    }

    static TestPath in(Path data) {
        return new TestPath(
                SpringApplication.run(ServerConfiguration.class, "--server.port=0", "--tamponade.data=" + data));
    }

    EventPath path() {
        return context.getBean(EventPath.class);
    }

    MessageReceiver receiver() {
        return new MessageReceiver(Messages.FORMAT, path(), Messages.CLOCK);
    }

    <T> T bean(Class<T> type) {
        return context.getBean(type);
    }

    @Override
    public void close() {
        context.close();
    }
}
