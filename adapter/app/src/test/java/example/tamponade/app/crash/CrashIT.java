package example.tamponade.app.crash;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.PostgresServer;
import example.tamponade.app.database.TestDatabase;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class CrashIT {

    private static final int KILLS = 1;
    private static final long SEED = 20260302;

    @EachDatabase
    void losesNothingWhenTheAdapterIsKilledWhileTheRecordIsBehind(TestDatabase database) throws SQLException {
        Trial.Outcome outcome = trial(database).run(Harms.adapterKilledBehind(KILLS, new Random(SEED)));

        assertThat(outcome.faults()).isEmpty();
        assertThat(outcome.comparison().lost()).isZero();
        assertThat(outcome.tally().answers(0)).isPositive();
        assertThat(outcome.tally().corrected()).isNotEmpty();
    }

    @Test
    void leavesNothingBehindWhenItIsKilledAgainAndAgain() throws IOException {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            AdapterProcess adapter = AdapterProcess.ofClassPath(database.settings());
            for (int kill = 0; kill < 3; kill++) {
                adapter.serve();
                adapter.kill();
            }
            try (Stream<Path> left = Files.list(database.settings().folder().resolve("native"))) {
                assertThat(left).hasSize(1);
            }
        }
    }

    @Test
    void losesNothingWhenTheDatabaseFileIsReplaced() throws SQLException {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            Trial.Outcome outcome = trial(database).run(Harms.fileReplaced(1, new Random(SEED)));

            assertThat(outcome.faults()).isEmpty();
        }
    }

    @Test
    void refusesEventsWhileTheDatabaseIsGoneAndGoesOnWhenItIsBack() throws SQLException {
        try (PostgresServer server = PostgresServer.start();
                TestDatabase database = TestDatabase.on(server)) {
            Trial.Outcome outcome = trial(database).run(Harms.serverKilled(server, 1, new Random(SEED)));

            assertThat(outcome.faults()).isEmpty();
            assertThat(outcome.tally().answers(503)).isPositive();
            assertThat(outcome.tally().answers(0)).isZero();
        }
    }

    private static Trial trial(TestDatabase database) {
        return new Trial(AdapterProcess.ofClassPath(database.settings()), database, SEED);
    }
}
