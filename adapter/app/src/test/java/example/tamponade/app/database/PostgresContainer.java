package example.tamponade.app.database;

import com.github.dockerjava.api.model.PortBinding;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.ServerSocket;
import org.testcontainers.postgresql.PostgreSQLContainer;
import org.testcontainers.utility.DockerImageName;

/** PostgreSQL in a container. */
final class PostgresContainer implements PostgresServer {

    private final PostgreSQLContainer container;
    private final int port;

    private PostgresContainer(String image, int port) {
        this.port = port;
        this.container = new PostgreSQLContainer(DockerImageName.parse(image).asCompatibleSubstituteFor("postgres"))
                .withCommand("postgres")
                // A port of its own choice would be another one after a restart.
                .withCreateContainerCmdModifier(
                        it -> it.getHostConfig().withPortBindings(PortBinding.parse(port + ":5432")));
    }

    static PostgresContainer start(String image) {
        PostgresContainer started = new PostgresContainer(image, freePort());
        started.container.start();
        return started;
    }

    private static int freePort() {
        try (ServerSocket socket = new ServerSocket(0)) {
            return socket.getLocalPort();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public String url(String database) {
        return "jdbc:postgresql://" + container.getHost() + ":" + port + "/" + database;
    }

    @Override
    public String user() {
        return container.getUsername();
    }

    @Override
    public String password() {
        return container.getPassword();
    }

    @Override
    public void kill() {
        container
                .getDockerClient()
                .killContainerCmd(container.getContainerId())
                .withSignal("KILL")
                .exec();
    }

    @Override
    public void restart() {
        container
                .getDockerClient()
                .startContainerCmd(container.getContainerId())
                .exec();
        Connections.await(this);
    }

    @Override
    public void close() {
        container.close();
    }

    @Override
    public String toString() {
        return "the image " + container.getDockerImageName();
    }
}
