package example.tamponade.app.crash;

import example.tamponade.app.database.PostgresServer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
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

    /** The adapter is killed that many times while events that it acknowledged are not on record yet. */
    static Trial.Harm adapterKilledBehind(int kills, Random random) {
        return trial -> {
            for (int killed = 0; killed < kills; ) {
                trial.senders().flood(random);
                if (trial.behind() > 0) {
                    trial.adapter().kill();
                    trial.adapter().serve();
                    killed++;
                }
            }
            trial.awaitAcknowledgements();
        };
    }

    /** That many times an older copy takes the place of the database file, until the adapter is killed and it is put back. */
    static Trial.Harm fileReplaced(int times, Random random) {
        return trial -> {
            Path file = trial.database().settings().folder().resolve("tamponade.sqlite");
            for (int i = 0; i < times; i++) {
                Waiting.pause(200 + random.nextInt(4800));
                int before = trial.tally().answers(503);
                Path away = replaceByCopy(file);
                Waiting.until(LONGEST, "events are refused", () -> trial.tally().answers(503) > before + REFUSALS);
                trial.adapter().kill();
                move(away, file);
                trial.adapter().serve();
                trial.awaitAcknowledgements();
            }
        };
    }

    private static Path replaceByCopy(Path file) {
        try {
            Path away = Files.move(file, file.resolveSibling("away"), StandardCopyOption.REPLACE_EXISTING);
            Files.copy(away, file);
            return away;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void move(Path from, Path to) {
        try {
            Files.move(from, to, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Nothing happens for so many minutes; each of them prints how much memory the adapter holds. */
    static Trial.Harm soak(int minutes) {
        return trial -> {
            for (int minute = 0; minute <= minutes; minute++) {
                System.out.printf(
                        "minute %d: %d MB resident, %d events acknowledged, %d behind the record%n",
                        minute,
                        trial.adapter().residentMegabytes(),
                        trial.tally().acknowledged().size(),
                        trial.behind());
                Waiting.pause(Duration.ofMinutes(1).toMillis());
            }
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
