package example.tamponade.app.message;

import example.tamponade.app.intake.FaultLog;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.time.Duration;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Takes messages over MLLP and answers each before it reads the next of the same connection. Connections beyond the
 * greatest number wait until one ends.
 *
 * <p>The HL7 library has a server too. It hands each message to a task of its own, so that answers overtake each other and
 * nothing holds a fast sender back; it keeps a block of any length in memory; and what it cannot parse it answers itself or
 * not at all, so that it would never be kept as refused. Hence this loop; reading and writing of messages are the library's.
 */
public final class MllpServer implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(MllpServer.class);
    private static final Duration IDLE = Duration.ofMinutes(10);
    private static final Duration STOPPING = Duration.ofSeconds(20);

    private final MessageReceiver receiver;
    private final ServerSocket server;
    private final ExecutorService workers;
    private final Set<Socket> open = ConcurrentHashMap.newKeySet();

    /**
     * Starts listening.
     *
     * @param address the address to listen on; the protocol knows no users, so it belongs to the loopback or behind a tunnel
     * @param port the port; 0 takes a free one
     * @param connections the greatest number of connections served at a time
     * @throws IOException when the port is taken
     */
    public MllpServer(InetAddress address, int port, int connections, MessageReceiver receiver) throws IOException {
        this.receiver = receiver;
        this.server = new ServerSocket(port, connections, address);
        this.workers = Executors.newFixedThreadPool(connections, it -> new Thread(it, "mllp"));
        for (int i = 0; i < connections; i++) {
            workers.execute(this::work);
        }
        LOG.info("MLLP on {} port {}", address, port());
    }

    /** The port that it listens on. */
    public int port() {
        return server.getLocalPort();
    }

    private void work() {
        Socket connection = accepted();
        while (connection != null) {
            try (Socket closing = connection) {
                serve(closing);
            } catch (IOException e) {
                LOG.info("a connection from {} ended: {}", connection.getInetAddress(), e.getMessage());
            } catch (RuntimeException | StackOverflowError e) {
                // Whatever goes wrong with one connection, its worker serves the next.
                FaultLog.error(LOG, "a connection is closed; please report this", e);
            } finally {
                open.remove(connection);
            }
            connection = accepted();
        }
    }

    private @Nullable Socket accepted() {
        while (!server.isClosed()) {
            try {
                Socket connection = server.accept();
                open.add(connection);
                return connection;
            } catch (IOException e) {
                if (!server.isClosed()) {
                    LOG.warn("a connection could not be accepted: {}", e.getMessage());
                }
            }
        }
        return null;
    }

    private void serve(Socket connection) throws IOException {
        connection.setSoTimeout((int) IDLE.toMillis());
        MllpStream stream = new MllpStream(connection.getInputStream(), connection.getOutputStream());
        Frame frame = stream.next();
        while (frame != null) {
            stream.send(receiver.take(frame).text());
            frame = server.isClosed() ? null : stream.next();
        }
    }

    /** Stops: takes no more, and lets answers under way be sent. */
    @Override
    public void close() throws IOException {
        server.close();
        for (Socket connection : open) {
            if (!connection.isClosed()) {
                connection.shutdownInput();
            }
        }
        workers.shutdown();
        try {
            if (!workers.awaitTermination(STOPPING.toSeconds(), TimeUnit.SECONDS)) {
                LOG.warn("{} connections are still busy and are cut", open.size());
                for (Socket connection : open) {
                    connection.close();
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
