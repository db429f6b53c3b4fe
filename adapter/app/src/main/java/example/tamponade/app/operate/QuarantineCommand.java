package example.tamponade.app.operate;

import example.tamponade.app.ExitCodes;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.DatabaseOptions;
import example.tamponade.app.formats.FacilityOptions;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.app.quarantine.QuarantineEntry;
import example.tamponade.app.quarantine.QuarantineFilter;
import example.tamponade.app.quarantine.QuarantineJson;
import example.tamponade.app.quarantine.QuarantineState;
import example.tamponade.app.quarantine.WholeEntry;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;

/** {@code quarantine}: lists what was refused, and deals with it. */
@Command(
        name = "quarantine",
        mixinStandardHelpOptions = true,
        synopsisSubcommandLabel = "COMMAND",
        description = "Lists what was refused, shows it with its history, takes corrections and sets entries aside.")
public final class QuarantineCommand {

    private static final JsonMapper LINE = JsonMapper.builder().build();
    private static final JsonMapper PRETTY =
            JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();

    @Spec
    private @Nullable CommandSpec spec;

    private PrintWriter out() {
        return Objects.requireNonNull(spec).commandLine().getOut();
    }

    @Command(
            name = "list",
            mixinStandardHelpOptions = true,
            sortOptions = false,
            description = "Lists entries, the oldest first, one JSON object a line.")
    int list(
            @Mixin DatabaseOptions database,
            @Option(
                            names = "--state",
                            completionCandidates = Codes.States.class,
                            description = "Only in this state: ${COMPLETION-CANDIDATES}.")
                    @Nullable
                    QuarantineState state,
            @Option(
                            names = "--format",
                            completionCandidates = Codes.Formats.class,
                            description = "Only in this format: ${COMPLETION-CANDIDATES}.")
                    @Nullable
                    InputFormat format,
            @Option(
                            names = "--reason",
                            completionCandidates = Codes.Reasons.class,
                            description = "Only refused for this reason: ${COMPLETION-CANDIDATES}.")
                    @Nullable
                    ReasonCode reason,
            @Option(names = "--mentions", paramLabel = "WORDS", description = "Only with these words in it.") @Nullable
                    String mentions,
            @Option(names = "--after", paramLabel = "ID", description = "Only behind this entry.") @Nullable UUID after,
            @Option(names = "--limit", defaultValue = "1000", description = "How many at most (${DEFAULT-VALUE}).")
                    int limit)
            throws IOException {
        try (Database open = Database.openToRead(database.settings())) {
            List<QuarantineEntry> entries =
                    new Quarantine(open).entries(new QuarantineFilter(state, format, reason, mentions, after, limit));
            entries.forEach(it -> out().println(LINE.writeValueAsString(QuarantineJson.inShort(it))));
        }
        out().flush();
        return ExitCodes.ALL_WELL;
    }

    @Command(name = "show", mixinStandardHelpOptions = true, description = "Shows an entry with its history.")
    int show(@Mixin DatabaseOptions database, @Parameters(paramLabel = "ID") UUID id) throws IOException {
        try (Database open = Database.openToRead(database.settings())) {
            print(new Quarantine(open)
                    .entry(id)
                    .orElseThrow(() -> new IllegalArgumentException("nothing in quarantine has the id " + id)));
            return ExitCodes.ALL_WELL;
        }
    }

    @Command(
            name = "correct",
            mixinStandardHelpOptions = true,
            sortOptions = false,
            description = "Takes a correction: the whole piece, corrected. Exit code 2 when it is refused too.")
    int correct(
            @Mixin DatabaseOptions database,
            @Mixin FacilityOptions facilities,
            @Parameters(paramLabel = "ID") UUID id,
            @Option(names = "--with", required = true, paramLabel = "FILE", description = "The corrected piece.")
                    Path file,
            @Option(names = "--by", required = true, paramLabel = "WHO", description = "Who corrects it.") String by,
            @Option(
                            names = "--format",
                            completionCandidates = Codes.Formats.class,
                            description = "Its format, if not the entry's: ${COMPLETION-CANDIDATES}.")
                    @Nullable
                    InputFormat format,
            @Option(names = "--protocol", paramLabel = "FILE", description = "The facility's care protocol (YAML).")
                    @Nullable
                    Path protocol)
            throws IOException {
        try (Station station = Station.open(database, protocol, facilities.facilities())) {
            return print(station.corrections()
                    .correct(
                            Station.caller(),
                            id,
                            read(file),
                            format == null ? null : station.formats().of(format),
                            by));
        }
    }

    @Command(
            name = "set-aside",
            mixinStandardHelpOptions = true,
            sortOptions = false,
            description = "Sets an entry aside: there is nothing to take.")
    int setAside(
            @Mixin DatabaseOptions database,
            @Parameters(paramLabel = "ID") UUID id,
            @Option(names = "--by", required = true, paramLabel = "WHO", description = "Who decides so.") String by,
            @Option(names = "--why", required = true, paramLabel = "WORDS", description = "Why.") String why)
            throws IOException {
        try (Station station = Station.open(database, null, Facilities.NONE)) {
            return print(station.corrections().setAside(id, by, why));
        }
    }

    private static Original read(Path file) throws IOException {
        try (InputStream in = Files.newInputStream(file)) {
            return Original.read(in);
        }
    }

    private int print(WholeEntry entry) {
        out().println(PRETTY.writeValueAsString(QuarantineJson.whole(entry)));
        out().flush();
        return entry.entry().state() == QuarantineState.OPEN ? ExitCodes.SOME_REFUSED : ExitCodes.ALL_WELL;
    }
}
