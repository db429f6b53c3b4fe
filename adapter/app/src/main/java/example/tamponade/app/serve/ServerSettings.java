package example.tamponade.app.serve;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.context.properties.ConfigurationProperties;

/**
 * The settings of the server.
 *
 * @param data folder of the embedded database
 * @param protocol the facility's care protocol; absent: the one that comes with the adapter
 */
@ConfigurationProperties("tamponade")
public record ServerSettings(Path data, @Nullable Path protocol) {}
