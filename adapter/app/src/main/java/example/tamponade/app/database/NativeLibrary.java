package example.tamponade.app.database;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.util.FileSystemUtils;

/**
 * Where the driver of the embedded database unpacks its library. It deletes it when the process ends, but not when the
 * process is killed: in the folder of temporary files one would be left behind by each kill. Here each process has a folder
 * of its own beside the database, and the next one removes those of processes that are gone.
 */
final class NativeLibrary {

    private static final Logger LOG = LoggerFactory.getLogger(NativeLibrary.class);
    private static final String FOLDER = "org.sqlite.tmpdir";

    private NativeLibrary() {}

    /** Has the driver unpack it there, unless it is told otherwise or has done so. */
    static void unpackIn(Path data) throws IOException {
        if (System.getProperty(FOLDER) != null) {
            return;
        }
        Path all = data.resolve("native");
        removeLeftBehind(all);
        Path own = Files.createDirectories(
                all.resolve(Long.toString(ProcessHandle.current().pid())));
        // Whoever can write there could put another library in its place.
        OwnersFolder.keep(all);
        OwnersFolder.keep(own);
        System.setProperty(FOLDER, own.toAbsolutePath().toString());
    }

    private static void removeLeftBehind(Path all) {
        if (!Files.isDirectory(all)) {
            return;
        }
        try (Stream<Path> folders = Files.list(all)) {
            for (Path folder : folders.filter(NativeLibrary::isLeftBehind).toList()) {
                FileSystemUtils.deleteRecursively(folder);
            }
        } catch (IOException e) {
            LOG.info("what another process has left behind in {} could not be removed: {}", all, e.getMessage());
        }
    }

    // In a container every process has the same number: a folder with ours is from before, too.
    private static boolean isLeftBehind(Path folder) {
        String name = String.valueOf(folder.getFileName());
        return name.matches("\\d{1,18}")
                && (Long.parseLong(name) == ProcessHandle.current().pid()
                        || ProcessHandle.of(Long.parseLong(name)).isEmpty());
    }
}
