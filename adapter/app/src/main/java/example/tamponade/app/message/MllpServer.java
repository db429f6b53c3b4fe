package example.tamponade.app.message;

import example.tamponade.app.intake.FaultLog;
import example.tamponade.app.machine.Memory;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.time.Duration;
import java.util.Comparator;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import javax.net.ServerSocketFactory;
import javax.net.ssl.SSLServerSocket;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Takes messages over MLLP and answers each before it reads the next of the same connection. Connections beyond the
 * greatest number wait until one ends or has had no message for a while; that one is closed then, and its other side
 * connects again when it has one.
 *
 * <p>The HL7 library has a server too. It hands each message to a task of its own, so that answers overtake each other and
 * nothing holds a fast sender back; it keeps a block of any length in memory; and what it cannot parse it answers itself or
 * not at all, so that it would never be kept as refused. Hence this loop; reading and writing of messages are the library's.
 */
public final class MllpServer implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(MllpServer.class);
    private static final Duration STOPPING = Duration.ofSeconds(20);
    private static final long LOOK_AGAIN_MS = 100;

    private final MessageReceiver receiver;
    private final ServerSocket server;
    private final Duration patience;
    private final Semaphore places;
    private final ExecutorService threads = Executors.newCachedThreadPool(it -> new Thread(it, "mllp"));
    private final Set<MllpConnection> open = ConcurrentHashMap.newKeySet();

    /**
     * Starts listening.
     *
     * @param sockets makes the socket to listen on: the protocol knows no users, so on a network one that asks for
     *     certificates
     * @param address the address to listen on
     * @param port the port; 0 takes a free one
     * @param connections the greatest number of connections served at a time
     * @param patience how long a sender is waited for within a message however little comes, and how long a connection may be
     *     idle when others wait
     * @throws IOException when the port is taken
     */
    public MllpServer(
            ServerSocketFactory sockets,
            InetAddress address,
            int port,
            int connections,
            Duration patience,
            MessageReceiver receiver)
            throws IOException {
        this.receiver = receiver;
        this.server = sockets.createServerSocket(port, connections, address);
        if (server instanceof SSLServerSocket encrypted) {
            encrypted.setNeedClientAuth(true);
        }
        this.patience = patience;
        this.places = new Semaphore(connections);
        threads.execute(this::accept);
        LOG.info("MLLP on {} port {}", address, port());
    }

    /** The port that it listens on. */
    public int port() {
        return server.getLocalPort();
    }

    private void accept() {
        while (!server.isClosed()) {
            try {
                waitForPlace(server.accept());
            } catch (IOException e) {
                if (!server.isClosed()) {
                    LOG.warn("a connection could not be accepted: {}", e.getMessage());
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            }
        }
    }

    private void waitForPlace(Socket socket) throws IOException, InterruptedException {
        while (!places.tryAcquire(LOOK_AGAIN_MS, TimeUnit.MILLISECONDS)) {
            if (server.isClosed()) {
                socket.close();
                return;
            }
            closeLongestIdle();
        }
        MllpConnection connection = new MllpConnection(socket, patience);
        open.add(connection);
        try {
            threads.execute(() -> serve(connection));
        } catch (RejectedExecutionException e) {
            // It came while the server was stopping; its sender has no answer and sends again.
            connection.close();
        }
    }

    private void closeLongestIdle() throws IOException {
        MllpConnection longest =
                open.stream().max(Comparator.comparing(MllpConnection::idle)).orElse(null);
        if (longest != null && longest.idle().compareTo(patience) > 0) {
            LOG.info("the connection from {} had no message for a while and makes place", longest.address());
            longest.close();
        }
    }

    private void serve(MllpConnection connection) {
        try (connection) {
            connection.serve(receiver);
        } catch (IOException e) {
            LOG.info("a connection from {} ended: {}", connection.address(), e.getMessage());
        } catch (RuntimeException | Error e) {
            Memory.endIfExhausted(e);
            // Whatever goes wrong with one connection, the others are served.
            FaultLog.error(LOG, "a connection is closed; please report this", e);
        } finally {
            open.remove(connection);
            places.release();
        }
    }

    /** Stops: takes no more, and lets answers under way be sent. */
    @Override
    public void close() throws IOException {
        server.close();
        for (MllpConnection connection : open) {
            connection.endInput();
        }
        threads.shutdown();
        try {
            if (!threads.awaitTermination(STOPPING.toSeconds(), TimeUnit.SECONDS)) {
                LOG.warn("{} connections are still busy and are cut", open.size());
                for (MllpConnection connection : open) {
                    connection.close();
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
