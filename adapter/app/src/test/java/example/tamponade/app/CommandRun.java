package example.tamponade.app;

import java.io.PrintWriter;
import java.io.StringWriter;
import picocli.CommandLine;

/**
 * A command that was run as a user runs it.
 *
 * @param code its exit code
 * @param out what it printed on standard output
 * @param err what it printed on standard error
 */
public record CommandRun(int code, String out, String err) {

    /** Runs the command line. */
    public static CommandRun of(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line = TamponadeAdapter.commandLine();
        line.setOut(new PrintWriter(out, true));
        line.setErr(new PrintWriter(err, true));
        return new CommandRun(line.execute(arguments), out.toString(), err.toString());
    }
}
