package example.tamponade.app.operate;

import example.tamponade.app.ExitCodes;
import example.tamponade.app.carry.FolderWriter;
import example.tamponade.app.carry.Manifest;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.DatabaseOptions;
import example.tamponade.app.keys.Signatures;
import example.tamponade.app.ledger.Ledger;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code carry}: the ledger into a folder, for another adapter. */
@Command(
        name = "carry",
        mixinStandardHelpOptions = true,
        sortOptions = false,
        description = {
            "Writes the events of the ledger into a folder with a manifest, as onto a stick, for an adapter that no network"
                    + " leads to; take --carried reads it there. It can run beside a server.",
            "The folder names mothers and is not encrypted: carry it on a medium that is."
        })
public final class CarryCommand implements Callable<Integer> {

    @Option(
            names = "--to",
            required = true,
            paramLabel = "DIR",
            description = "The folder; it must be empty or absent.")
    private Path to = Path.of("");

    @Option(
            names = "--after",
            paramLabel = "FILE",
            description = "The manifest of the folder carried before: only what has come since is written.")
    private @Nullable Path after;

    @Option(
            names = "--of",
            paramLabel = "FACILITY",
            description = "Only cases of this facility; can be given several times.")
    private Set<String> facilities = new LinkedHashSet<>();

    @Option(
            names = "--sign-with",
            paramLabel = "KEY",
            description = "Signs the manifest with this Ed25519 private key (PKCS #8, PEM).")
    private @Nullable Path signWith;

    @Mixin
    private DatabaseOptions database = new DatabaseOptions();

    @Spec
    private @Nullable CommandSpec spec;

    @Override
    public Integer call() throws IOException {
        Map<String, Long> before =
                after == null ? Map.of() : Manifest.read(after).ends();
        Manifest written;
        try (Database open = Database.openToRead(database.settings())) {
            written = new FolderWriter(new Ledger(open), to).write(facilities, before);
        }
        if (signWith != null) {
            Signatures.sign(to.resolve(Manifest.NAME), signWith);
        }
        long events = written.parts().stream().mapToLong(Manifest.Part::events).sum();
        PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
        out.println(events + " events in " + written.parts().size() + " files are in " + to);
        out.flush();
        return ExitCodes.ALL_WELL;
    }
}
