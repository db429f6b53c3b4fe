package example.tamponade.app.operate;

import example.tamponade.app.database.Database;
import example.tamponade.app.database.DatabaseOptions;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code backup}: copies the database as it is at one moment, beside a running server too, and checks the copy. */
@Command(
        name = "backup",
        mixinStandardHelpOptions = true,
        sortOptions = false,
        description = {
            "Copies the database as it is at one moment, beside a running server too, and checks the copy as"
                    + " verify does. The copy is a folder that --data can name, and restore puts into a"
                    + " PostgreSQL database.",
            "It holds everything, whose it is included: keep it where only its owner can read it."
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:the copy is whole", "1:failure", "2:the ledger in it is not as it was written"})
public final class BackupCommand implements Callable<Integer> {

    @Mixin
    private DatabaseOptions database = new DatabaseOptions();

    @Option(
            names = "--to",
            required = true,
            paramLabel = "DIR",
            description = "The folder to copy to; it must not hold a database yet.")
    private Path to = Path.of("");

    @Spec
    private @Nullable CommandSpec spec;

    @Override
    public Integer call() throws IOException {
        CommandLine command = Objects.requireNonNull(spec).commandLine();
        try (Database open = Database.openToRead(database.settings())) {
            open.copyTo(to);
        }
        PrintWriter out = command.getOut();
        out.println("copied to " + to);
        out.flush();
        return new CommandLine(new VerifyCommand())
                .setOut(out)
                .setErr(command.getErr())
                .execute("--data=" + to);
    }
}
