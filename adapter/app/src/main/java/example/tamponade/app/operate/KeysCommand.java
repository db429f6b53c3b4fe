package example.tamponade.app.operate;

import example.tamponade.app.ExitCodes;
import example.tamponade.app.keys.KeyFile;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code keys}: makes the keys that the adapter signs with, and changes from one to the next. */
@Command(
        name = "keys",
        mixinStandardHelpOptions = true,
        synopsisSubcommandLabel = "COMMAND",
        description = {
            "Makes the keys by which destinations know the adapter. To change keys: add one, wait until every"
                    + " destination has read it at /.well-known/jwks.json, then use it."
        })
public final class KeysCommand {

    @Spec
    private @Nullable CommandSpec spec;

    @Command(
            name = "add",
            mixinStandardHelpOptions = true,
            description = "Adds a key to a file, which is made where it is absent. The first one signs at once.")
    int add(@Parameters(paramLabel = "FILE") Path file) throws IOException {
        return say(new KeyFile(file).add() + " is in " + file);
    }

    @Command(
            name = "use",
            mixinStandardHelpOptions = true,
            description = "Has the newest key of a file sign from now on.")
    int use(@Parameters(paramLabel = "FILE") Path file) throws IOException {
        return say(new KeyFile(file).useNewest() + " signs from now on");
    }

    private int say(String words) {
        PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
        out.println(words);
        out.flush();
        return ExitCodes.ALL_WELL;
    }
}
