package example.tamponade.app.operate;

import example.tamponade.app.database.Database;
import example.tamponade.app.database.DatabaseCopy;
import example.tamponade.app.database.DatabaseOptions;
import example.tamponade.app.database.DatabaseSettings;
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

/** {@code restore}: puts a copy into an empty database, and checks what is there then. */
@Command(
        name = "restore",
        mixinStandardHelpOptions = true,
        sortOptions = false,
        description = {
            "Puts what backup has copied, or what an embedded database holds, into an empty database, and checks it as verify"
                    + " does."
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:everything is there", "1:failure", "2:the ledger is not as it was written"})
public final class RestoreCommand implements Callable<Integer> {

    @Option(names = "--from", required = true, paramLabel = "DIR", description = "The folder of the copy.")
    private Path from = Path.of("");

    @Mixin
    private DatabaseOptions database = new DatabaseOptions();

    @Spec
    private @Nullable CommandSpec spec;

    @Override
    public Integer call() throws IOException {
        CommandLine command = Objects.requireNonNull(spec).commandLine();
        try (Database copy = Database.openToRead(new DatabaseSettings(from, null, null, null));
                Database empty = Database.open(database.settings())) {
            DatabaseCopy.copy(copy, empty);
        }
        PrintWriter out = command.getOut();
        out.println("restored from " + from);
        out.flush();
        CommandLine verify = new CommandLine(new VerifyCommand()).setOut(out).setErr(command.getErr());
        return database.url() == null
                ? verify.execute("--data=" + database.data())
                : verify.execute("--database=" + database.url());
    }
}
