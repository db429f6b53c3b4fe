package example.tamponade.app.serve;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.CommandRun;
import example.tamponade.app.Samples;
import example.tamponade.app.database.TestDatabase;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Two adapters on one PostgreSQL database. */
class TwoAdaptersIT {

    private static final int EVENTS = 36;

    @Test
    void eachCaseIsFoldedOnceInOrderWhoeverTakesItsEvents() throws SQLException {
        List<String> lines = Arrays.asList(new String(Samples.events("referred"), UTF_8).split("\n"))
                .subList(0, EVENTS);
        JsonNode alone;
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.POSTGRESQL);
                RunningServer server = RunningServer.start(database)) {
            lines.forEach(server::post);
            alone = served(server);
        }
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.POSTGRESQL);
                RunningServer one = RunningServer.start(database);
                RunningServer other = RunningServer.start(database)) {
            IntStream.range(0, EVENTS)
                    .forEach(it -> assertThat((it % 2 == 0 ? one : other)
                                    .post(lines.get(it))
                                    .statusCode())
                            .isEqualTo(201));

            assertThat(served(one)).isEqualTo(alone);
            assertThat(served(other)).isEqualTo(alone);
            assertThat(behind(database)).isZero();
            assertThat(CommandRun.of(command(database)).out()).contains(" 0 faults");
        }
    }

    // Without the warnings that time brings up to the moment of asking.
    private static JsonNode served(RunningServer server) {
        JsonNode bundle = JsonMapper.shared()
                .readTree(server.get("/cases/marrowby-cross/MRX-2026-0048").body());
        return JsonMapper.shared()
                .valueToTree(bundle.path("entry")
                        .valueStream()
                        .map(it -> it.path("resource"))
                        .filter(it -> it.path("resourceType").asString().equals("Observation"))
                        .toList());
    }

    private static long behind(TestDatabase database) throws SQLException {
        try (Connection connection = database.connect();
                Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery("select count(*) from case_head h left join checkpoint c"
                        + " on c.case_key = h.case_key where h.case_key like 'case/%'"
                        + " and h.case_seq <> coalesce(c.case_seq, 0)")) {
            rows.next();
            return rows.getLong(1);
        }
    }

    private static String[] command(TestDatabase database) {
        List<String> command = new java.util.ArrayList<>(List.of("verify"));
        command.addAll(database.commandOptions());
        return command.toArray(String[]::new);
    }
}
