package example.tamponade.app.operate;

import example.tamponade.app.ExitCodes;
import example.tamponade.app.carry.FolderReader;
import example.tamponade.app.carry.Manifest;
import example.tamponade.app.database.DatabaseOptions;
import example.tamponade.app.formats.FacilityOptions;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.keys.Signatures;
import example.tamponade.app.path.Receipt;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code take}: files into the ledger. */
@Command(
        name = "take",
        mixinStandardHelpOptions = true,
        sortOptions = false,
        description = {
            "Takes files of any length into the ledger, in constant memory. The end of a file's name tells its format.",
            "What is refused is kept in quarantine with its reasons. Taking a file again has no effect, so a file that"
                    + " broke off is simply taken again."
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:everything was taken", "1:failure", "2:something was refused; see the command quarantine"})
public final class TakeCommand implements Callable<Integer> {

    private static final long TELL_EVERY = 10_000;

    @Option(names = "--in", arity = "1..*", paramLabel = "FILE", description = "The files.")
    private List<Path> in = List.of();

    @Option(
            names = "--carried",
            paramLabel = "DIR",
            description = "A folder that carry has written, whole or not at all.")
    private @Nullable Path carried;

    @Option(
            names = "--signed-by",
            paramLabel = "KEY",
            description = "Checks first that the folder's manifest is signed by this Ed25519 public key (PEM).")
    private @Nullable Path signedBy;

    @Option(
            names = "--format",
            completionCandidates = Codes.Formats.class,
            paramLabel = "FORMAT",
            description = "The format of all files, whatever their names: ${COMPLETION-CANDIDATES}.")
    private @Nullable InputFormat format;

    @Mixin
    private DatabaseOptions database = new DatabaseOptions();

    @Mixin
    private FacilityOptions facilities = new FacilityOptions();

    @Option(names = "--protocol", paramLabel = "FILE", description = "The facility's care protocol (YAML).")
    private @Nullable Path protocol;

    @Spec
    private @Nullable CommandSpec spec;

    private long stored;
    private long repeated;
    private long refused;

    @Override
    public Integer call() throws IOException {
        CommandLine command = Objects.requireNonNull(spec).commandLine();
        if (in.isEmpty() && carried == null) {
            throw new ParameterException(command, "nothing to take: give --in FILE, or --carried DIR");
        }
        PrintWriter err = command.getErr();
        List<Path> parts = carried == null ? List.of() : parts(carried);
        try (Station station = Station.open(database, protocol, facilities.facilities())) {
            for (Path file : in) {
                take(station, file, format, err);
            }
            for (Path part : parts) {
                take(station, part, InputFormat.EVENT, err);
            }
        }
        return refused > 0 ? ExitCodes.SOME_REFUSED : ExitCodes.ALL_WELL;
    }

    private List<Path> parts(Path folder) throws IOException {
        if (signedBy != null) {
            Signatures.check(folder.resolve(Manifest.NAME), signedBy);
        }
        return FolderReader.parts(folder);
    }

    private void take(Station station, Path file, @Nullable InputFormat as, PrintWriter err) throws IOException {
        stored = 0;
        repeated = 0;
        long refusedBefore = refused;
        var read =
                as == null ? station.formats().ofFile(file) : station.formats().of(as);
        try (Pieces pieces = read.open(Files.newInputStream(file))) {
            station.path().takeAll(Station.caller(), pieces, (piece, receipt) -> received(file, piece, receipt, err));
        }
        tell(
                err,
                file + ": " + stored + " stored, " + repeated + " there before, " + (refused - refusedBefore)
                        + " refused");
    }

    private void received(Path file, Piece piece, Receipt receipt, PrintWriter err) {
        if (receipt instanceof Receipt.Stored one) {
            stored += one.repeated() ? 0 : 1;
            repeated += one.repeated() ? 1 : 0;
        } else if (receipt instanceof Receipt.Refused one) {
            refused++;
            one.reasons()
                    .forEach(it -> tell(
                            err,
                            file + ", " + place(piece, it) + ": " + it.message() + "; " + it.remedy() + " (quarantine "
                                    + one.quarantineId() + ")"));
        }
        if ((stored + repeated + refused) % TELL_EVERY == 0) {
            tell(err, file + ": " + (stored + repeated + refused) + " read so far");
        }
    }

    private static String place(Piece piece, Reason reason) {
        String within = reason.place() == null ? reason.path() : reason.place();
        return within.startsWith(piece.place()) ? within : (piece.place() + " " + within).strip();
    }

    private static void tell(PrintWriter err, String words) {
        err.println(words);
        err.flush();
    }
}
