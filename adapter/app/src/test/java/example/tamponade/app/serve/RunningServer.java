package example.tamponade.app.serve;

import example.tamponade.app.OperatorLogin;
import example.tamponade.app.database.TestDatabase;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.web.server.context.WebServerApplicationContext;
import org.springframework.context.ConfigurableApplicationContext;

/** The real server on a free port; tests talk to it over HTTP, as users do. */
public final class RunningServer implements AutoCloseable {

    private final HttpClient client = HttpClient.newHttpClient();
    private final ConfigurableApplicationContext context;
    private final String login;

    private RunningServer(ConfigurableApplicationContext context, String login) {
        this.context = context;
        this.login = login;
    }

    /** Starts it on that database, with further settings as the command line takes them. */
    public static RunningServer start(TestDatabase database, String... further) {
        List<String> settings = new ArrayList<>(database.serverSettings());
        settings.add("--server.port=0");
        settings.addAll(List.of(further));
        ConfigurableApplicationContext context =
                SpringApplication.run(ServerConfiguration.class, settings.toArray(String[]::new));
        return new RunningServer(context, OperatorLogin.of(database.settings().folder()));
    }

    public HttpResponse<String> get(String path) {
        return send(request(path).GET());
    }

    /** As it came, with what was asked for in a header. */
    HttpResponse<byte[]> get(String path, String header, String value) {
        try {
            return client.send(request(path).header(header, value).build(), HttpResponse.BodyHandlers.ofByteArray());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    public HttpResponse<String> post(String contentType, byte[] body) {
        return post("/events", contentType, body);
    }

    public HttpResponse<String> post(String path, String contentType, byte[] body) {
        return send(
                request(path).header("Content-Type", contentType).POST(HttpRequest.BodyPublishers.ofByteArray(body)));
    }

    public HttpResponse<String> post(String event) {
        return post("application/json", event.getBytes(StandardCharsets.UTF_8));
    }

    /** One of the server's own parts, for what no sender can do. */
    public <T> T part(Class<T> type) {
        return context.getBean(type);
    }

    public int port() {
        return ((WebServerApplicationContext) context).getWebServer().getPort();
    }

    /** A request with the operator's key. */
    public HttpRequest.Builder request(String path) {
        return request(URI.create("http://127.0.0.1:" + port() + path));
    }

    /** A request with the operator's key, for an address that the server has told. */
    public HttpRequest.Builder request(URI address) {
        return HttpRequest.newBuilder(address).header("Authorization", login);
    }

    /** What the operator's requests say who he is by. */
    public String login() {
        return login;
    }

    private HttpResponse<String> send(HttpRequest.Builder request) {
        try {
            return client.send(request.build(), HttpResponse.BodyHandlers.ofString(StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new IllegalStateException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    @Override
    public void close() {
        context.close();
    }
}
