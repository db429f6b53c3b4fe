package example.tamponade.app.crash;

import example.tamponade.app.database.PostgresServer;
import example.tamponade.app.database.TestDatabase;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.Random;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Is anything lost that was acknowledged, whatever is killed? Run by hand; a short run of it is one of the tests. */
@Command(
        name = "crash",
        mixinStandardHelpOptions = true,
        description = "Sends events to the packaged adapter, does it harm meanwhile, and compares what was acknowledged"
                + " with what is stored. Exit code 1 when anything was lost, doubled or altered.")
public final class CrashProgram implements Callable<Integer> {

    enum Harmed {
        /** The adapter on the embedded database. */
        SQLITE,
        /** The adapter on PostgreSQL. */
        POSTGRES,
        /** The PostgreSQL server below a running adapter. */
        POSTGRES_KILLED,
        /** The adapter on the embedded database, while the record is behind. */
        BEHIND,
        /** The file of the embedded database, by an older copy. */
        FILE_REPLACED,
        /** Nothing: the adapter is at work for long, and its memory is looked at. */
        SOAK,
        /** The disk of the embedded database, which fills up. */
        FULL_DISK
    }

    @Option(names = "--database", defaultValue = "sqlite", description = "What is harmed: ${COMPLETION-CANDIDATES}.")
    private Harmed harmed;

    @Option(names = "--kills", defaultValue = "50", description = "How often something is killed (default 50).")
    private int kills;

    @Option(names = "--minutes", defaultValue = "30", description = "How long a soak lasts (default 30).")
    private int minutes;

    @Option(names = "--seed", defaultValue = "1", description = "Where the random numbers begin (default 1).")
    private long seed;

    @Option(names = "--jar", defaultValue = "target/tamponade-adapter.jar", description = "The packaged adapter.")
    private Path jar;

    /** Runs it. */
    public static void main(String[] arguments) {
        System.exit(new CommandLine(new CrashProgram())
                .setCaseInsensitiveEnumValuesAllowed(true)
                .execute(arguments));
    }

    @Override
    public Integer call() throws IOException, SQLException {
        Random random = new Random(seed);
        Trial.Outcome outcome = switch (harmed) {
            case SQLITE -> onEmbedded(Harms.adapterKilled(kills, random));
            case BEHIND -> onEmbedded(Harms.adapterKilledBehind(kills, random));
            case FILE_REPLACED -> onEmbedded(Harms.fileReplaced(kills, random));
            case SOAK -> onEmbedded(Harms.soak(minutes));
            case POSTGRES -> onServer(false, random);
            case POSTGRES_KILLED -> onServer(true, random);
            case FULL_DISK -> onSmallDisk();
        };
        print(outcome);
        return outcome.faults().isEmpty() ? 0 : 1;
    }

    private Trial.Outcome onEmbedded(Trial.Harm harm) throws SQLException {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            return trial(database).run(harm);
        }
    }

    private Trial.Outcome onServer(boolean serverKilled, Random random) throws SQLException {
        try (PostgresServer server = PostgresServer.start();
                TestDatabase database = TestDatabase.on(server)) {
            return trial(database)
                    .run(serverKilled ? Harms.serverKilled(server, kills, random) : Harms.adapterKilled(kills, random));
        }
    }

    private Trial.Outcome onSmallDisk() throws IOException, SQLException {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                SmallDisk disk = SmallDisk.mount(database.settings().folder())) {
            return trial(database).run(Harms.diskFull(disk.ballast()));
        }
    }

    private Trial trial(TestDatabase database) {
        return new Trial(AdapterProcess.ofJar(jar, database.settings()), database, seed);
    }

    private void print(Trial.Outcome outcome) {
        Comparison found = outcome.comparison();
        System.out.printf("%s, seed %d, %s%n", harmed, seed, times());
        System.out.printf(
                "acknowledged %d, stored %d%n", outcome.tally().acknowledged().size(), found.stored());
        System.out.printf("lost %d, doubled %d, altered %d%n", found.lost(), found.doubled(), found.altered());
        System.out.printf(
                "corrections acknowledged %d%n", outcome.tally().corrected().size());
        System.out.printf("stored without acknowledgement %d (allowed)%n", found.unacknowledgedButStored());
        System.out.printf("cases whose record is behind the ledger %d%n", found.behind());
        System.out.printf("answers by status %s%n", outcome.tally().answers());
        outcome.faults().forEach(it -> System.out.println("FAULT " + it));
    }

    private String times() {
        return switch (harmed) {
            case FULL_DISK -> "disk full once";
            case SOAK -> minutes + " minutes";
            default -> kills + " times";
        };
    }
}
