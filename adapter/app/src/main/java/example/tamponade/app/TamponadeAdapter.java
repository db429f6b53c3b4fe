package example.tamponade.app;

import example.tamponade.app.check.CheckCommand;
import example.tamponade.app.convert.ConvertCommand;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.operate.BackupCommand;
import example.tamponade.app.operate.CarryCommand;
import example.tamponade.app.operate.DeliveriesCommand;
import example.tamponade.app.operate.KeysCommand;
import example.tamponade.app.operate.QuarantineCommand;
import example.tamponade.app.operate.RestoreCommand;
import example.tamponade.app.operate.TakeCommand;
import example.tamponade.app.operate.VerifyCommand;
import example.tamponade.app.outbox.OutboxState;
import example.tamponade.app.quarantine.QuarantineState;
import example.tamponade.app.serve.ServeCommand;
import example.tamponade.app.summary.SummaryCommand;
import example.tamponade.core.event.Coded;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The command line of the adapter. */
@Command(
        name = "tamponade-adapter",
        mixinStandardHelpOptions = true,
        version = "tamponade-adapter 0.1.0",
        description = {
            "Turns bedside events of a postpartum haemorrhage treated with a uterine balloon into FHIR R4 records.",
            "Decision support for review by licensed clinicians; not a medical device. Local protocols and licensed"
                    + " judgement decide."
        },
        subcommands = {
            ConvertCommand.class,
            SummaryCommand.class,
            CheckCommand.class,
            ServeCommand.class,
            TakeCommand.class,
            CarryCommand.class,
            QuarantineCommand.class,
            BackupCommand.class,
            RestoreCommand.class,
            DeliveriesCommand.class,
            KeysCommand.class,
            VerifyCommand.class
        })
public final class TamponadeAdapter implements Runnable {

    @Spec
    private @Nullable CommandSpec spec;

    private TamponadeAdapter() {}

    /** Without a command there is nothing to do but to say which there are. */
    @Override
    public void run() {
        throw new ParameterException(Objects.requireNonNull(spec).commandLine(), "say which command to run");
    }

    /** Runs a command and exits with its code. */
    public static void main(String[] arguments) {
        int code = run(arguments);
        if (code != ServeCommand.RUNNING) {
            System.exit(code);
        }
    }

    /** Runs a command; gives its exit code. */
    static int run(String... arguments) {
        return commandLine().execute(arguments);
    }

    /** The command line; a command that fails says why in one line and exits with 1. */
    static CommandLine commandLine() {
        CommandLine line = new CommandLine(new TamponadeAdapter());
        line.setCaseInsensitiveEnumValuesAllowed(true);
        line.registerConverter(QuarantineState.class, it -> Coded.of(QuarantineState.class, it));
        line.registerConverter(InputFormat.class, it -> Coded.of(InputFormat.class, it));
        line.registerConverter(ReasonCode.class, it -> Coded.of(ReasonCode.class, it));
        line.registerConverter(OutboxState.class, it -> Coded.of(OutboxState.class, it));
        line.setParameterExceptionHandler((error, arguments) -> {
            error.getCommandLine().getErr().println(error.getMessage());
            error.getCommandLine().usage(error.getCommandLine().getErr());
            return ExitCodes.FAILURE;
        });
        line.setExecutionExceptionHandler((error, command, result) -> {
            command.getErr().println(words(error));
            return ExitCodes.FAILURE;
        });
        return line;
    }

    private static String words(Exception error) {
        if (error instanceof NoSuchFileException) {
            return "no such file: " + error.getMessage() + "; check the path";
        }
        if (error instanceof FileSystemException) {
            return "cannot read or write " + error.getMessage() + "; check the path and its permissions";
        }
        return error.getMessage() == null ? error.toString() : error.getMessage();
    }
}
