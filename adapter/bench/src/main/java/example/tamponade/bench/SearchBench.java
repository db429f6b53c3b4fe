package example.tamponade.bench;

import example.tamponade.app.access.Compartment;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.DatabaseSettings;
import example.tamponade.app.search.RecordSearch;
import example.tamponade.app.search.SearchIndex;
import example.tamponade.app.search.SearchRequest;
import example.tamponade.app.search.SearchRequestReader;
import java.io.IOException;
import java.net.ServerSocket;
import java.net.URI;
import java.net.URLDecoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;

/**
 * How many searches a second, over HTTP by the packaged server and straight from its database, in one run? Run with the
 * number of cases and of the events of each. Cases are copies of the first events of one, made in the database, as another
 * case would be there.
 */
public final class SearchBench {

    private static final int ROUNDS = 300;
    private static final int WARM = 100;
    private static final HttpClient CLIENT = HttpClient.newHttpClient();

    private SearchBench() {}

    /** Arguments: how many cases, how many events of each. */
    public static void main(String[] arguments) throws Exception {
        int cases = Integer.parseInt(arguments[0]);
        int events = Integer.parseInt(arguments[1]);
        OpenedIntake intake = new OpenedIntake();
        intake.open();
        OpenedRecord record = new OpenedRecord(intake);
        new SearchIndex(intake.database()).refresh();
        List<String> lines = Files.readAllLines(Path.of("../../samples/events/settled.jsonl"));
        record.put(record.pieces(String.join("\n", lines.subList(0, events)).getBytes(StandardCharsets.UTF_8)));
        String mother = mother(intake.database());
        multiply(intake.database(), mother, cases);
        Path folder = intake.folder();
        intake.close();
        try (Database database = Database.open(new DatabaseSettings(folder, null, null, null));
                Server server = Server.start(folder)) {
            System.out.println(cases + " cases, "
                    + database.jdbc()
                            .sql("select count(*) from current_version")
                            .query(Long.class)
                            .single()
                    + " resources");
            RecordSearch search = new RecordSearch(database);
            Random random = new Random(cases);
            for (Map.Entry<String, String> asked : searches().entrySet()) {
                double straight = perSecond(() -> search.find(
                        request(asked.getValue(), mother + "-" + (1 + random.nextInt(cases - 1))),
                        Compartment.EVERYTHING));
                double served = perSecond(() ->
                        server.get(asked.getValue().replace("{P}", mother + "-" + (1 + random.nextInt(cases - 1)))));
                System.out.printf("%s: %.0f a second over HTTP, %.0f straight%n", asked.getKey(), served, straight);
            }
        }
    }

    private static Map<String, String> searches() {
        Map<String, String> searches = new LinkedHashMap<>();
        searches.put(
                "the latest of one code of a mother",
                "Observation?patient={P}&code=http%3A%2F%2Floinc.org%7C8867-4&_sort=-date&_count=1");
        searches.put(
                "a mother's readings of an hour",
                "Observation?patient={P}&date=ge2026-02-11T17:00:00Z&date=lt2026-02-11T18:00:00Z&_count=50");
        searches.put("a page of 50 observations", "Observation?_count=50");
        return searches;
    }

    private static SearchRequest request(String asked, String mother) {
        Map<String, List<String>> parameters = new LinkedHashMap<>();
        String query = asked.substring(asked.indexOf('?') + 1).replace("{P}", mother);
        Arrays.stream(query.split("&", -1))
                .map(it -> it.split("=", 2))
                .forEach(it -> parameters
                        .computeIfAbsent(it[0], key -> new ArrayList<>())
                        .add(URLDecoder.decode(it[1], StandardCharsets.UTF_8)));
        return SearchRequestReader.read("Observation", parameters, "", false);
    }

    private interface Asked {
        Object ask() throws Exception;
    }

    private static double perSecond(Asked asked) throws Exception {
        for (int i = 0; i < WARM; i++) {
            asked.ask();
        }
        long began = System.nanoTime();
        for (int i = 0; i < ROUNDS; i++) {
            asked.ask();
        }
        return ROUNDS * 1e9 / (System.nanoTime() - began);
    }

    private static String mother(Database database) {
        return database.jdbc()
                .sql("select id from current_version where type = 'Patient'")
                .query(String.class)
                .single();
    }

    private static void multiply(Database database, String mother, int cases) {
        String content =
                "replace(replace(content, '\"id\":\"' || id || '\"', '\"id\":\"' || id || '-' || n || '\"'), 'Patient/"
                        + mother + "', 'Patient/" + mother + "-' || n)";
        Map<String, String> columns = Map.of(
                "resource_version", "type, id || '-' || n, version, " + content + ", stored_at",
                "current_version",
                        "type, id || '-' || n, version, stored_at, case_key || '-' || n, low, high, replace(words, '"
                                + mother + "', '" + mother + "-' || n)",
                "case_resource", "case_key || '-' || n, type, id || '-' || n",
                "case_facility", "case_key || '-' || n, facility_id",
                "case_value", "type, path, value, system, case_key || '-' || n",
                "further_time", "type, id || '-' || n, path, low, high");
        database.transactions()
                .executeWithoutResult(status -> columns.forEach((table, values) -> database.jdbc()
                        .sql("with recursive copy (n) as (select 1 union all select n + 1 from copy where n < "
                                + (cases - 1) + ") insert into " + table + " select " + values + " from " + table
                                + ", copy")
                        .update()));
    }

    /** The packaged server on that database. */
    private record Server(Process process, int port, String login) implements AutoCloseable {

        static Server start(Path folder) throws Exception {
            int port;
            try (ServerSocket free = new ServerSocket(0)) {
                port = free.getLocalPort();
            }
            Process process = new ProcessBuilder(
                            System.getProperty("java.home") + "/bin/java",
                            "-XX:+UseSerialGC",
                            "-Xmx320m",
                            "-jar",
                            "../app/target/tamponade-adapter.jar",
                            "serve",
                            "--port",
                            Integer.toString(port),
                            "--data",
                            folder.toString())
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start();
            Path key = folder.resolve("operator-key");
            while (!Files.exists(key) || Files.size(key) == 0) {
                Thread.sleep(100);
            }
            String login = Files.readString(key).replaceFirst("(?s).*?login (\\S+) password (\\S+).*", "$1:$2");
            Server server = new Server(process, port, login);
            while (!server.isThere()) {
                Thread.sleep(100);
            }
            return server;
        }

        private boolean isThere() {
            try {
                get("metadata");
                return true;
            } catch (IOException | InterruptedException e) {
                return false;
            }
        }

        String get(String path) throws IOException, InterruptedException {
            HttpRequest request = HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + "/fhir/" + path))
                    .header(
                            "Authorization",
                            "Basic " + Base64.getEncoder().encodeToString(login.getBytes(StandardCharsets.UTF_8)))
                    .build();
            HttpResponse<String> answer = CLIENT.send(request, HttpResponse.BodyHandlers.ofString());
            if (answer.statusCode() != 200) {
                throw new IllegalStateException(answer.statusCode() + " " + answer.body());
            }
            return answer.body();
        }

        @Override
        public void close() {
            process.destroyForcibly();
        }
    }
}
