package example.tamponade.app.crash;

import example.tamponade.app.database.PostgresServer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Random;

/** What can be done to an adapter at work. */
final class Harms {

    private static final Duration LONGEST = Duration.ofMinutes(5);
    private static final int REFUSALS = 30;

    private Harms() {}

    /** The adapter is killed that many times, 0.2 to 5 s after it answers, and started again on the same data. */
    static Trial.Harm adapterKilled(int kills, Random random) {
        return trial -> {
            for (int i = 0; i < kills; i++) {
                Waiting.pause(200 + random.nextInt(4800));
                trial.adapter().kill();
                trial.adapter().serve();
            }
            trial.awaitAcknowledgements();
        };
    }

    /** The database's server is killed that many times and comes back a while later; the adapter runs on. */
    static Trial.Harm serverKilled(PostgresServer server, int kills, Random random) {
        return trial -> {
            for (int i = 0; i < kills; i++) {
                Waiting.pause(200 + random.nextInt(4800));
                server.kill();
                Waiting.pause(200 + random.nextInt(2000));
                server.restart();
                trial.awaitAcknowledgements();
            }
        };
    }

    /** The disk fills up by what is taken until events are refused for want of room; then the ballast is removed. */
    static Trial.Harm diskFull(Path ballast) {
        return trial -> {
            Waiting.until(LONGEST, "events are refused", () -> trial.tally().answers(507) > REFUSALS);
            try {
                Files.delete(ballast);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
            trial.awaitAcknowledgements();
        };
    }
}
