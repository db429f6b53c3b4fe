package example.tamponade.app.crash;

import example.tamponade.app.OperatorLogin;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;

/** What a sender needs of HTTP. */
final class Http {

    private static final HttpClient CLIENT =
            HttpClient.newBuilder().connectTimeout(Duration.ofSeconds(5)).build();

    /** The answer that was none: the connection broke. */
    private static final Answer NONE = new Answer(0, "");

    private final URI address;
    private final Path folder;

    /** Speaks to the server there, with the operator's key of its folder. */
    Http(URI address, Path folder) {
        this.address = address;
        this.folder = folder;
    }

    /**
     * What came back.
     *
     * @param status the HTTP status, 0 when nothing came
     */
    record Answer(int status, String body) {}

    Answer get(String path) {
        return send(HttpRequest.newBuilder(address.resolve(path)).GET());
    }

    Answer post(String contentType, String body) {
        return post("/events", contentType, body);
    }

    Answer post(String path, String contentType, String body) {
        return send(HttpRequest.newBuilder(address.resolve(path))
                .header("Content-Type", contentType)
                .POST(HttpRequest.BodyPublishers.ofString(body)));
    }

    private Answer send(HttpRequest.Builder request) {
        try {
            HttpResponse<String> answer = CLIENT.send(
                    request.timeout(Duration.ofMinutes(2))
                            .header("Authorization", OperatorLogin.of(folder))
                            .build(),
                    HttpResponse.BodyHandlers.ofString());
            return new Answer(answer.statusCode(), answer.body());
        } catch (IOException e) {
            return NONE;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return NONE;
        }
    }
}
