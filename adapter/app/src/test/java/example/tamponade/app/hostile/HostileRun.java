package example.tamponade.app.hostile;

import static java.nio.charset.StandardCharsets.UTF_8;

import example.tamponade.app.Samples;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Sends hostile inputs to a running server while an attendant works with it, and notes what should not have been. */
final class HostileRun {

    private static final Duration LONGEST = Duration.ofSeconds(60);

    private static final int TIMES = 20;
    private static final long TRY_AGAIN_MS = 300;

    // Every answer that tells the sender what to do; 5xx says that the adapter failed.
    private static final Set<Integer> CLEAR = Set.of(200, 201, 400, 405, 406, 408, 409, 411, 413, 415, 421, 422, 429);

    private final URI server;
    private final String login;
    private final HttpClient client = HttpClient.newHttpClient();
    private final List<String> faults = Collections.synchronizedList(new ArrayList<>());
    private final Map<Integer, Integer> answers = Collections.synchronizedMap(new TreeMap<>());
    private volatile Duration slowest = Duration.ZERO;
    private volatile Duration slowestForAttendant = Duration.ZERO;
    private volatile boolean over;

    /** Sends to the server there, by what its operator's requests say who he is. */
    HostileRun(URI server, String login) {
        this.server = server;
        this.login = login;
    }

    List<String> faults() {
        return List.copyOf(faults);
    }

    Map<Integer, Integer> answers() {
        return new TreeMap<>(answers);
    }

    Duration slowest() {
        return slowest;
    }

    Duration slowestForAttendant() {
        return slowestForAttendant;
    }

    /** Sends them, so many at the same time, and looks at everything afterwards. */
    void run(List<HostileInput> inputs, int senders) throws IOException, InterruptedException {
        ExecutorService threads = Executors.newFixedThreadPool(senders + 1);
        Future<?> attendant = threads.submit(this::work);
        List<Future<?>> sent = new ArrayList<>();
        for (HostileInput input : inputs) {
            sent.add(threads.submit(() -> send(input)));
        }
        join(sent);
        over = true;
        join(List.of(attendant));
        threads.shutdown();
        lookAtEverything();
    }

    private void join(List<Future<?>> all) throws InterruptedException {
        for (Future<?> one : all) {
            try {
                one.get();
            } catch (java.util.concurrent.ExecutionException e) {
                faults.add("this program failed: " + e.getCause());
            }
        }
    }

    private void send(HostileInput input) {
        long begin = System.nanoTime();
        try {
            HttpResponse<String> answer = post(input.path(), input.type(), input.body());
            answers.merge(answer.statusCode(), 1, Integer::sum);
            for (int again = 0; again < TIMES && answer.statusCode() == 429; again++) {
                Thread.sleep(TRY_AGAIN_MS);
                answer = post(input.path(), input.type(), input.body());
                answers.merge(answer.statusCode(), 1, Integer::sum);
            }
            if (!CLEAR.contains(answer.statusCode())) {
                faults.add(input.name() + " is answered " + answer.statusCode() + ": " + beginning(answer.body()));
            }
            if (answer.body().contains("adapter-fault") || answer.body().contains("java.")) {
                faults.add(input.name() + " is a fault of the adapter: " + beginning(answer.body()));
            }
        } catch (IOException e) {
            faults.add(input.name() + " is not answered: " + e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        Duration took = Duration.ofNanos(System.nanoTime() - begin);
        slowest = took.compareTo(slowest) > 0 ? took : slowest;
    }

    private static String beginning(String text) {
        return text.substring(0, Math.min(300, text.length()));
    }

    // An attendant records one thing after another; each must be taken and the case be readable.
    private void work() {
        String event = new String(Samples.events("settled"), UTF_8)
                .lines()
                .filter(it -> it.contains("\"caseId\""))
                .findFirst()
                .orElseThrow();
        String caseId = "HOSTILE-" + UUID.randomUUID();
        while (!over) {
            String mine = event.replaceFirst("\"eventId\":\"[^\"]*\"", "\"eventId\":\"" + UUID.randomUUID() + "\"")
                    .replaceFirst("\"caseId\":\"[^\"]*\"", "\"caseId\":\"" + caseId + "\"");
            long begin = System.nanoTime();
            try {
                attend(mine, caseId);
                Thread.sleep(100);
            } catch (IOException e) {
                faults.add("the attendant is not answered: " + e);
                return;
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            }
            Duration took = Duration.ofNanos(System.nanoTime() - begin);
            slowestForAttendant = took.compareTo(slowestForAttendant) > 0 ? took : slowestForAttendant;
        }
    }

    private void attend(String event, String caseId) throws IOException, InterruptedException {
        HttpResponse<String> taken = post("/events", "application/json", event.getBytes(UTF_8));
        if (taken.statusCode() != 201 && taken.statusCode() != 429) {
            faults.add("the attendant's event is answered " + taken.statusCode() + ": " + beginning(taken.body()));
        }
        HttpResponse<String> read = get("/cases/fernglade-hp/" + caseId);
        if (taken.statusCode() == 201 && read.statusCode() != 200) {
            faults.add("the attendant's case is answered " + read.statusCode());
        }
    }

    private void lookAtEverything() throws IOException, InterruptedException {
        for (String path : List.of("/", "/intake", "/ledger", "/quarantine?limit=1000")) {
            if (get(path).statusCode() != 200) {
                faults.add("GET " + path + " is answered " + get(path).statusCode());
            }
        }
        for (JsonNode caseId : JsonMapper.shared().readTree(get("/cases").body())) {
            String path = "/cases/" + caseId.asString();
            HttpResponse<String> read = get(path);
            if (read.statusCode() != 200) {
                faults.add("GET " + path + " is answered " + read.statusCode());
            }
        }
    }

    private HttpResponse<String> get(String path) throws IOException, InterruptedException {
        return client.send(
                HttpRequest.newBuilder(server.resolve(path))
                        .header("Authorization", login)
                        .timeout(LONGEST)
                        .GET()
                        .build(),
                HttpResponse.BodyHandlers.ofString(UTF_8));
    }

    private HttpResponse<String> post(String path, String type, byte[] body) throws IOException, InterruptedException {
        return client.send(
                HttpRequest.newBuilder(server.resolve(path))
                        .header("Authorization", login)
                        .timeout(LONGEST.multipliedBy(2))
                        .header("Content-Type", type)
                        .POST(HttpRequest.BodyPublishers.ofByteArray(body))
                        .build(),
                HttpResponse.BodyHandlers.ofString(UTF_8));
    }
}
