package example.tamponade.app.operate;

import example.tamponade.app.ExitCodes;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.DatabaseOptions;
import example.tamponade.app.outbox.DestinationState;
import example.tamponade.app.outbox.Outbox;
import example.tamponade.app.outbox.OutboxState;
import example.tamponade.app.outbox.OutboxStates;
import example.tamponade.app.search.SearchIndex;
import java.io.IOException;
import java.io.PrintWriter;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tools.jackson.databind.json.JsonMapper;

/** {@code deliveries}: tells how deliveries stand, and has refused ones tried again. */
@Command(
        name = "deliveries",
        mixinStandardHelpOptions = true,
        synopsisSubcommandLabel = "COMMAND",
        description = {
            "Tells what waits for which destination and what a destination refused, and has it sent again. The server"
                    + " does the sending."
        })
public final class DeliveriesCommand {

    private static final String CASE = "Only this case, by its key as it is listed.";

    private static final JsonMapper LINE = JsonMapper.builder().build();

    @Spec
    private @Nullable CommandSpec spec;

    private PrintWriter out() {
        return Objects.requireNonNull(spec).commandLine().getOut();
    }

    @Command(
            name = "list",
            mixinStandardHelpOptions = true,
            description = "Lists the destinations, one JSON object a line. Exit code 2 when something is parked or one"
                    + " of them takes nothing.")
    int list(@Mixin DatabaseOptions database) throws IOException {
        try (Database open = Database.openToRead(database.settings())) {
            List<DestinationState> states = new OutboxStates(open).states();
            print(states);
            boolean allWell = states.stream()
                    .allMatch(it -> it.parkedCases() == 0 && it.problem().isEmpty());
            return allWell ? ExitCodes.ALL_WELL : ExitCodes.SOME_REFUSED;
        }
    }

    @Command(
            name = "show",
            mixinStandardHelpOptions = true,
            sortOptions = false,
            description = "Lists the cases of which something is due at a destination, one JSON object a line.")
    int show(
            @Mixin DatabaseOptions database,
            @Parameters(paramLabel = "DESTINATION") String destination,
            @Option(
                            names = "--state",
                            defaultValue = "waiting",
                            completionCandidates = Codes.Deliveries.class,
                            description = "Those in this state: ${COMPLETION-CANDIDATES} (default: waiting).")
                    OutboxState state)
            throws IOException {
        try (Database open = Database.openToRead(database.settings())) {
            print(new OutboxStates(open).entries(destination, state, OutboxStates.MOST));
            return ExitCodes.ALL_WELL;
        }
    }

    @Command(
            name = "release",
            mixinStandardHelpOptions = true,
            sortOptions = false,
            description = "Has parked cases tried again, one or all.")
    int release(
            @Mixin DatabaseOptions database,
            @Parameters(paramLabel = "DESTINATION") String destination,
            @Option(names = "--case", defaultValue = "", paramLabel = "KEY", description = CASE) String caseKey)
            throws IOException {
        try (Database open = Database.open(database.settings())) {
            new OutboxStates(open).demand(destination);
            int released = new Outbox(open, Clock.systemUTC()).release(destination, caseKey);
            return say(released + " cases are tried again");
        }
    }

    @Command(
            name = "again",
            mixinStandardHelpOptions = true,
            sortOptions = false,
            description =
                    "Has what is on record sent again, of one case or of all, since a time or all of it, as to a server"
                            + " that has lost it.")
    int again(
            @Mixin DatabaseOptions database,
            @Parameters(paramLabel = "DESTINATION") String destination,
            @Option(names = "--case", defaultValue = "", paramLabel = "KEY", description = CASE) String caseKey,
            @Option(
                            names = "--since",
                            paramLabel = "TIME",
                            description = "Only what went on record since then, for example 2026-02-11T17:00:00Z.")
                    @Nullable
                    Instant since)
            throws IOException {
        try (Database open = Database.open(database.settings())) {
            new OutboxStates(open).demand(destination);
            // After an update this may come before the server's first start.
            new SearchIndex(open).refresh();
            long resources = new Outbox(open, Clock.systemUTC()).sendAgain(destination, caseKey, since);
            return say(resources + " resources are sent again");
        }
    }

    @Command(
            name = "forget",
            mixinStandardHelpOptions = true,
            sortOptions = false,
            description = {
                "Forgets a destination that is no longer in the settings: nothing is collected for it any more.",
                "A server whose settings still name it takes it for a new one and sends it everything."
            })
    int forget(@Mixin DatabaseOptions database, @Parameters(paramLabel = "DESTINATION") String destination)
            throws IOException {
        try (Database open = Database.open(database.settings())) {
            new OutboxStates(open).demand(destination);
            long due = new Outbox(open, Clock.systemUTC()).forget(destination);
            return say(destination + " is forgotten; " + due + " resources were due there");
        }
    }

    private void print(List<?> rows) {
        rows.forEach(it -> out().println(LINE.writeValueAsString(it)));
        out().flush();
    }

    private int say(String words) {
        out().println(words);
        out().flush();
        return ExitCodes.ALL_WELL;
    }
}
