package example.tamponade.app.hostile;

import example.tamponade.app.OperatorLogin;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Does a running server bear hostile inputs? Run by hand; a short run of it is one of the tests. */
@Command(
        name = "hostile",
        mixinStandardHelpOptions = true,
        description = "Sends hostile inputs to a running server, whose database they fill, and looks whether it answers"
                + " clearly, serves others meanwhile and can be read afterwards. Exit code 1 when not, or when an"
                + " answer takes over 60 s, or another's over 20 s.")
public final class HostileProgram implements Callable<Integer> {

    private static final Duration LONGEST = Duration.ofSeconds(60);
    private static final Duration LONGEST_FOR_OTHERS = Duration.ofSeconds(20);

    @Option(
            names = "--server",
            defaultValue = "http://127.0.0.1:8080",
            description = "Where it answers (default ${DEFAULT-VALUE}).")
    private URI server;

    @Option(names = "--data", defaultValue = "data", description = "Its folder of data (default ${DEFAULT-VALUE}).")
    private Path data;

    @Option(names = "--seed", defaultValue = "1", description = "Where the random numbers begin (default 1).")
    private long seed;

    @Option(names = "--inputs", defaultValue = "3000", description = "How many samples are spoilt (default 3000).")
    private int spoilt;

    @Option(names = "--rounds", defaultValue = "10", description = "Rounds of costly inputs (default 10).")
    private int rounds;

    @Option(names = "--senders", defaultValue = "32", description = "How many send at the same time (default 32).")
    private int senders;

    /** Runs it. */
    public static void main(String[] arguments) {
        System.exit(new CommandLine(new HostileProgram()).execute(arguments));
    }

    @Override
    public Integer call() throws IOException, InterruptedException {
        HostileRun run = new HostileRun(server, OperatorLogin.of(data));
        run.run(inputs(seed, spoilt, rounds), senders);
        System.out.printf("seed %d, answers by status %s%n", seed, run.answers());
        System.out.printf("slowest answer %s, slowest for others %s%n", run.slowest(), run.slowestForAttendant());
        run.faults().forEach(it -> System.out.println("FAULT " + it));
        boolean inTime = run.slowest().compareTo(LONGEST) <= 0
                && run.slowestForAttendant().compareTo(LONGEST_FOR_OTHERS) <= 0;
        return run.faults().isEmpty() && inTime ? 0 : 1;
    }

    /** So many spoilt samples, and the costly inputs so many times, short, long and too long in turn. */
    static List<HostileInput> inputs(long seed, int spoilt, int rounds) {
        HostileInputs inputs = new HostileInputs(seed);
        List<HostileInput> all = new ArrayList<>();
        for (int i = 0; i < spoilt; i++) {
            all.add(inputs.spoilt());
        }
        int[] sizes = {60_000, 1_000_000, 12_000_000};
        for (int round = 0; round < rounds; round++) {
            all.addAll(inputs.costly(sizes[round % sizes.length]));
        }
        java.util.Collections.shuffle(all, new java.util.Random(seed));
        return all;
    }
}
