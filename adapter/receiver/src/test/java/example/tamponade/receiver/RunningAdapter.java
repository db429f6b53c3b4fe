package example.tamponade.receiver;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.Map;

/** The packaged adapter as a server that delivers to another. */
final class RunningAdapter implements AutoCloseable {

    private static final int LONGEST_WAIT = 3000;

    private final HttpClient client = HttpClient.newHttpClient();
    private final Process process;
    private final int port;
    private final Path data;

    private RunningAdapter(Process process, int port, Path data) {
        this.process = process;
        this.data = data;
        this.port = port;
    }

    static RunningAdapter deliveringTo(String address, Path folder) throws Exception {
        return start(folder, Map.of("TAMPONADE_DESTINATIONS_RECORD_ADDRESS", address));
    }

    static RunningAdapter start(Path folder, Map<String, String> environment) throws Exception {
        int port = freePort();
        ProcessBuilder builder = new ProcessBuilder(
                        System.getProperty("java.home") + "/bin/java",
                        "-Xmx320m",
                        "-jar",
                        "../app/target/tamponade-adapter.jar",
                        "serve",
                        "--port",
                        Integer.toString(port),
                        "--data",
                        folder.resolve("data").toString())
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("serve.log").toFile());
        builder.environment().putAll(environment);
        RunningAdapter adapter = new RunningAdapter(builder.start(), port, folder.resolve("data"));
        adapter.waitUntilItSays("/cases", "[");
        return adapter;
    }

    private static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0)) {
            return socket.getLocalPort();
        }
    }

    int post(String lines) throws IOException, InterruptedException {
        return client.send(
                        request("/events")
                                .header("Content-Type", "application/x-ndjson")
                                .POST(HttpRequest.BodyPublishers.ofString(lines))
                                .build(),
                        HttpResponse.BodyHandlers.ofString())
                .statusCode();
    }

    String get(String path) throws IOException, InterruptedException {
        return client.send(request(path).build(), HttpResponse.BodyHandlers.ofString())
                .body();
    }

    void waitUntilItSays(String path, String words) throws Exception {
        for (int look = 0; look < LONGEST_WAIT; look++) {
            try {
                if (get(path).contains(words)) {
                    return;
                }
            } catch (IOException e) {
                // It does not listen yet.
            }
            Thread.sleep(100);
        }
        throw new IllegalStateException(path + " never said " + words);
    }

    /** The base address of its FHIR interface. */
    String base() {
        return "http://127.0.0.1:" + port + "/fhir";
    }

    private HttpRequest.Builder request(String path) {
        return HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + path))
                .header("Authorization", "Basic " + Base64.getEncoder().encodeToString(login().getBytes(UTF_8)));
    }

    /** The operator and his key, as a password's user and the password, with a colon between. */
    String login() {
        try {
            Path file = data.resolve("operator-key");
            return Files.exists(file)
                    ? Files.readString(file).replaceFirst("(?s).*?login (\\S+) password (\\S+).*", "$1:$2")
                    : "";
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public void close() {
        process.destroyForcibly().onExit().join();
    }
}
