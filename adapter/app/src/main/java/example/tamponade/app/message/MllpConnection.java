package example.tamponade.app.message;

import example.tamponade.app.access.Caller;
import example.tamponade.app.intake.SteadyInput;
import example.tamponade.app.intake.TooSlowException;
import java.io.Closeable;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.time.Duration;
import javax.net.ssl.SSLSocket;

/** A connection over MLLP: it may be idle between messages, but a message that has begun must get on. */
final class MllpConnection implements Closeable {

    private static final Duration LONGEST_IDLE = Duration.ofMinutes(10);

    private final Socket socket;
    private final SteadyInput in;
    private final MllpStream stream;
    private volatile boolean betweenMessages = true;
    private volatile long since = System.nanoTime();

    MllpConnection(Socket socket, Duration patience) throws IOException {
        this.socket = socket;
        socket.setSoTimeout(Math.toIntExact(patience.toMillis()));
        this.in = new SteadyInput(socket.getInputStream(), patience);
        this.stream = new MllpStream(in, socket.getOutputStream());
    }

    InetAddress address() {
        return socket.getInetAddress();
    }

    // By TLS whose certificate it is; otherwise where it comes from is all that is known.
    private String sender() throws IOException {
        return socket instanceof SSLSocket encrypted
                ? encrypted.getSession().getPeerPrincipal().getName()
                : address().getHostAddress();
    }

    /** For how long there has been no message; zero while there is one. */
    Duration idle() {
        return betweenMessages ? Duration.ofNanos(System.nanoTime() - since) : Duration.ZERO;
    }

    /** Answers one message after the other until the other side sends no more, or nothing for long. */
    void serve(MessageReceiver receiver) throws IOException {
        while (begun()) {
            betweenMessages = false;
            in.begin();
            Frame frame = stream.content();
            if (frame == null) {
                return;
            }
            stream.send(receiver.take(Caller.by("mllp", sender()), frame).text());
            since = System.nanoTime();
            betweenMessages = true;
        }
    }

    private boolean begun() throws IOException {
        while (idle().compareTo(LONGEST_IDLE) < 0) {
            try {
                in.begin();
                return stream.begun();
            } catch (TooSlowException e) {
                // Nothing came for a while; between messages that may be so.
                continue;
            }
        }
        return false;
    }

    /** Reads what has come already, and nothing more; one that ends by itself meanwhile has nothing left to read. */
    void endInput() throws IOException {
        try {
            socket.shutdownInput();
        } catch (IOException e) {
            // Either side may end it at any moment, so that asking first whether it is open would not help.
            socket.close();
        }
    }

    @Override
    public void close() throws IOException {
        socket.close();
    }
}
