package example.tamponade.app.hostile;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.crash.AdapterProcess;
import example.tamponade.app.database.TestDatabase;
import java.io.IOException;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** A short run of the hostile inputs against the server with the memory that the README gives it. */
class HostileIT {

    @Test
    void theServerBearsThem() throws IOException, InterruptedException {
        long seed = new Random().nextLong();
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            AdapterProcess server = AdapterProcess.ofClassPath(database.settings());
            server.serve();
            try {
                HostileRun run = new HostileRun(server.address(), server.login());
                run.run(HostileProgram.inputs(seed, 400, 2), 32);

                assertThat(run.faults()).as("seed " + seed).isEmpty();
                assertThat(run.answers()).containsKey(422);
            } finally {
                server.kill();
            }
        }
    }
}
