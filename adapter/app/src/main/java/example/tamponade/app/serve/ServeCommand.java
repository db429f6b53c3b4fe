package example.tamponade.app.serve;

import example.tamponade.app.database.DatabaseNotOpenedException;
import example.tamponade.app.database.DatabaseOptions;
import example.tamponade.app.machine.Memory;
import example.tamponade.app.records.SiteOptions;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.BeansException;
import org.springframework.boot.Banner;
import org.springframework.boot.SpringApplication;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code serve}: starts the HTTP server, which runs until it is stopped. */
@Command(
        name = "serve",
        mixinStandardHelpOptions = true,
        description = {
            "Starts the HTTP server on the loopback address: POST /events takes bedside events, GET /cases/{facility}/{number}"
                    + " gives the resources of a case.",
            "It lets in whoever has the operator's key, which the first start makes in the folder of data, and whoever has an"
                    + " access token."
        })
public final class ServeCommand implements Callable<Integer> {

    /** The exit code that says: the server runs on, do not exit. */
    public static final int RUNNING = -1;

    @Option(
            names = "--port",
            paramLabel = "PORT",
            description = "Port to listen on; 0 takes a free one (default 8080).")
    private @Nullable Integer port;

    @Mixin
    private DatabaseOptions database = new DatabaseOptions();

    @Option(names = "--protocol", paramLabel = "FILE", description = "The facility's care protocol (YAML).")
    private @Nullable Path protocol;

    @Mixin
    private SiteOptions site = new SiteOptions();

    @Override
    public Integer call() throws Exception {
        Memory.guard();
        SpringApplication application = new SpringApplication(ServerConfiguration.class);
        application.setBannerMode(Banner.Mode.OFF);
        try {
            application.run(settings().toArray(String[]::new));
        } catch (BeansException e) {
            throw deepest(e);
        }
        return RUNNING;
    }

    // What the framework wraps around it says nothing to those who run the server.
    private static Exception deepest(Exception failure) {
        Exception deepest = failure;
        while (deepest.getCause() instanceof Exception cause && !(deepest instanceof DatabaseNotOpenedException)) {
            deepest = cause;
        }
        return deepest;
    }

    private List<String> settings() {
        List<String> settings = new ArrayList<>();
        if (port != null) {
            settings.add("--server.port=" + port);
        }
        settings.add("--tamponade.data=" + whole(database.data()));
        if (database.url() != null) {
            settings.add("--tamponade.database.url=" + database.url());
        }
        if (protocol != null) {
            settings.add("--tamponade.protocol=" + whole(protocol));
        }
        if (!site.packages().isEmpty()) {
            settings.add("--tamponade.site.packages="
                    + site.packages().stream().map(ServeCommand::whole).collect(Collectors.joining(",")));
        }
        if (site.adaptation() != null) {
            settings.add("--tamponade.site.adaptation=" + whole(site.adaptation()));
        }
        return settings;
    }

    // The framework reads some paths with dots in them as something else.
    private static String whole(Path path) {
        return path.toAbsolutePath().normalize().toString();
    }
}
