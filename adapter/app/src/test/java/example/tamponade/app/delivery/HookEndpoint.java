package example.tamponade.app.delivery;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Objects;

/** An endpoint of subscriptions that keeps what it is told. */
final class HookEndpoint implements AutoCloseable {

    record Told(String method, String path, String authorization, String body) {}

    private final HttpServer server;
    private final List<Told> told = new ArrayList<>();
    private final Deque<Integer> next = new ArrayDeque<>();

    private HookEndpoint(HttpServer server) {
        this.server = server;
    }

    static HookEndpoint start() throws IOException {
        HookEndpoint endpoint =
                new HookEndpoint(HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0));
        endpoint.server.createContext("/", endpoint::handle);
        endpoint.server.start();
        return endpoint;
    }

    String address() {
        return "http://127.0.0.1:" + server.getAddress().getPort() + "/hook";
    }

    /** Answers the next requests so, and keeps nothing of them. */
    synchronized void answer(int status, int times) {
        for (int i = 0; i < times; i++) {
            next.add(status);
        }
    }

    synchronized List<Told> told() {
        return List.copyOf(told);
    }

    private synchronized void handle(HttpExchange exchange) throws IOException {
        String body = new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
        Integer status = next.poll();
        if (status == null) {
            told.add(new Told(
                    exchange.getRequestMethod(),
                    exchange.getRequestURI().getPath(),
                    Objects.requireNonNullElse(exchange.getRequestHeaders().getFirst("Authorization"), ""),
                    body));
        }
        exchange.sendResponseHeaders(status == null ? 200 : status, -1);
        exchange.close();
    }

    @Override
    public void close() {
        server.stop(0);
    }
}
