package example.tamponade.app.delivery;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;

/** The way to a server, which fails as told: one fault for each of the next requests. */
final class FaultyNetwork implements AutoCloseable {

    /** What goes wrong on the way. */
    enum Fault {
        /** Nobody answers at the address. */
        REFUSED,
        /** The connection ends before the server has the request. */
        RESET_BEFORE,
        /** The connection ends when the server has done its work and before it has said so. */
        RESET_AFTER,
        /** The server has done its work, and its answer never comes. */
        HANG,
        /** The answer comes so slowly that nobody can wait for it. */
        TRICKLE,
        /** The first half of the answer comes. */
        HALF
    }

    private static final int HANGING_MS = 10_000;
    private static final int BETWEEN_BYTES_MS = 100;

    private final ServerSocket socket;
    private final int target;
    private final Queue<Fault> faults = new ConcurrentLinkedQueue<>();
    private final ExecutorService threads = Executors.newCachedThreadPool();

    private FaultyNetwork(ServerSocket socket, int target) {
        this.socket = socket;
        this.target = target;
    }

    /** The way to the server on that port. */
    static FaultyNetwork to(int port) {
        try {
            FaultyNetwork network = new FaultyNetwork(new ServerSocket(0, 50, InetAddress.getLoopbackAddress()), port);
            network.threads.execute(network::accept);
            return network;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    int port() {
        return socket.getLocalPort();
    }

    void fail(Fault... next) {
        faults.addAll(List.of(next));
    }

    /** Whether every fault has come to pass. */
    boolean isWorkingAgain() {
        return faults.isEmpty();
    }

    private void accept() {
        while (!socket.isClosed()) {
            try {
                Socket client = socket.accept();
                threads.execute(() -> handle(client));
            } catch (IOException e) {
                return;
            }
        }
    }

    private void handle(Socket client) {
        try (client) {
            Fault refused = faults.peek();
            if (refused == Fault.REFUSED) {
                faults.poll();
                reset(client);
                return;
            }
            byte[] request = request(client.getInputStream());
            Fault fault = faults.poll();
            if (fault == Fault.RESET_BEFORE) {
                reset(client);
                return;
            }
            byte[] answer = forward(request);
            if (fault == Fault.RESET_AFTER) {
                reset(client);
            } else if (fault == Fault.HANG) {
                Thread.sleep(HANGING_MS);
            } else if (fault == Fault.TRICKLE) {
                trickle(answer, client.getOutputStream());
            } else {
                int length = fault == Fault.HALF ? answer.length / 2 : answer.length;
                client.getOutputStream().write(answer, 0, length);
            }
        } catch (IOException e) {
            // The other side had enough.
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static void reset(Socket client) throws IOException {
        client.setSoLinger(true, 0);
    }

    private static void trickle(byte[] answer, OutputStream out) throws IOException, InterruptedException {
        for (byte one : answer) {
            out.write(one);
            out.flush();
            Thread.sleep(BETWEEN_BYTES_MS);
        }
    }

    // The head, and the body as long as the head says.
    private static byte[] request(InputStream in) throws IOException {
        ByteArrayOutputStream request = new ByteArrayOutputStream();
        String head = "";
        while (!head.endsWith("\r\n\r\n")) {
            int next = in.read();
            if (next < 0) {
                throw new IOException("the request ended in its head");
            }
            request.write(next);
            head += (char) next;
        }
        String length = Arrays.stream(head.split("\r\n"))
                .map(it -> it.toLowerCase(Locale.ROOT))
                .filter(it -> it.startsWith("content-length:"))
                .findFirst()
                .map(it -> it.substring(it.indexOf(':') + 1).trim())
                .orElse("0");
        request.write(in.readNBytes(Integer.parseInt(length)));
        return request.toByteArray();
    }

    private byte[] forward(byte[] request) throws IOException {
        String asText = new String(request, StandardCharsets.ISO_8859_1);
        byte[] once = asText.replaceFirst("\r\n", "\r\nConnection: close\r\n").getBytes(StandardCharsets.ISO_8859_1);
        try (Socket server = new Socket(InetAddress.getLoopbackAddress(), target)) {
            server.getOutputStream().write(once);
            return server.getInputStream().readAllBytes();
        }
    }

    @Override
    public void close() throws IOException {
        socket.close();
        threads.shutdownNow();
    }
}
