package example.tamponade.app.crash;

import example.tamponade.app.OperatorLogin;
import example.tamponade.app.TamponadeAdapter;
import example.tamponade.app.database.DatabaseSettings;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.ServerSocket;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** The adapter as a process of its own, which can be killed. */
public final class AdapterProcess {

    private static final Duration LONGEST_START = Duration.ofMinutes(2);

    private final List<String> program;
    private final DatabaseSettings database;
    private final int port = freePort();
    private final Map<String, String> environment = new HashMap<>();
    private final List<String> flags = new ArrayList<>();
    private Process process;

    private AdapterProcess(List<String> program, DatabaseSettings database) {
        this.program = program;
        this.database = database;
    }

    /** From the packaged jar. */
    static AdapterProcess ofJar(Path jar, DatabaseSettings database) {
        return new AdapterProcess(List.of("-jar", jar.toString()), database);
    }

    /** From the classes that the tests run on. */
    public static AdapterProcess ofClassPath(DatabaseSettings database) {
        return new AdapterProcess(
                List.of("-cp", System.getProperty("java.class.path"), TamponadeAdapter.class.getName()), database);
    }

    private static int freePort() {
        try (ServerSocket socket = new ServerSocket(0)) {
            return socket.getLocalPort();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Sets a variable of its environment. */
    public AdapterProcess with(String variable, String value) {
        environment.put(variable, value);
        return this;
    }

    /** With that setting of Java behind the recommended ones, as {@code -Xmx256m}. */
    public AdapterProcess withFlag(String flag) {
        flags.add(flag);
        return this;
    }

    /** Where it answers. */
    public URI address() {
        return URI.create("http://127.0.0.1:" + port);
    }

    /** Starts the server and waits until it answers. */
    public void serve() {
        process = start(
                List.of("serve", "--port", Integer.toString(port)),
                ProcessBuilder.Redirect.DISCARD,
                ProcessBuilder.Redirect.INHERIT);
        Waiting.until(LONGEST_START, "the adapter answers", () -> {
            if (!process.isAlive()) {
                throw new IllegalStateException("the adapter ended with " + process.exitValue());
            }
            return http().get("/cases").status() == 200;
        });
    }

    /** What speaks to it. */
    Http http() {
        return new Http(address(), database.folder());
    }

    /** What the operator's requests say who he is by. */
    public String login() {
        return OperatorLogin.of(database.folder());
    }

    /** Runs a command on the same database to its end. */
    public Ended run(String... command) {
        Process run = start(List.of(command), ProcessBuilder.Redirect.DISCARD, ProcessBuilder.Redirect.PIPE);
        try {
            String errors = new String(run.getErrorStream().readAllBytes(), java.nio.charset.StandardCharsets.UTF_8);
            return new Ended(run.waitFor(), errors);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    /**
     * How a command ended.
     *
     * @param code its exit code
     * @param errors what it printed on standard error
     */
    public record Ended(int code, String errors) {}

    private Process start(List<String> command, ProcessBuilder.Redirect out, ProcessBuilder.Redirect errors) {
        List<String> line = new ArrayList<>(
                List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString()));
        line.addAll(recommendedFlags());
        line.addAll(flags);
        line.addAll(program);
        line.addAll(command);
        line.addAll(List.of("--data", database.folder().toString()));
        ProcessBuilder builder = new ProcessBuilder(line).redirectOutput(out).redirectError(errors);
        builder.environment().putAll(environment);
        if (database.url() != null) {
            line.addAll(List.of("--database", database.url()));
            builder.environment().put("TAMPONADE_DATABASE_USER", database.user());
            builder.environment().put("TAMPONADE_DATABASE_PASSWORD", database.password());
        }
        try {
            return builder.start();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    // Those that the README recommends.
    private static List<String> recommendedFlags() {
        try {
            String readme = Files.readString(Path.of("../../README.md"));
            Matcher flags = Pattern.compile("commands with `(-XX:[^`]*)`").matcher(readme);
            if (!flags.find()) {
                throw new IllegalStateException("the README recommends no settings for Java");
            }
            return List.of(flags.group(1).split(" ", -1));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** How much memory the server holds, in megabytes, as Linux tells it. */
    long residentMegabytes() {
        try (Stream<String> lines = Files.lines(Path.of("/proc/" + process.pid() + "/status"))) {
            String kilobytes = lines.filter(it -> it.startsWith("VmRSS:"))
                    .findFirst()
                    .orElseThrow()
                    .replaceAll("\\D", "");
            return Long.parseLong(kilobytes) / 1024;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Kills the server with SIGKILL. */
    public void kill() {
        process.destroyForcibly().onExit().join();
    }
}
