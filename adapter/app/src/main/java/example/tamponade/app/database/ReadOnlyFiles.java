package example.tamponade.app.database;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/**
 * How the files of the embedded database are opened to read only. SQLite makes files beside a database even to read it,
 * where it was written with a write-ahead log; that must not be, and cannot be on storage that is read-only.
 */
final class ReadOnlyFiles {

    private final Path file;

    private ReadOnlyFiles(Path file) {
        this.file = file;
    }

    /**
     * The files in that folder, or where they cannot be read in place, a copy that is gone with the process.
     *
     * @throws DatabaseNotOpenedException when there is no database
     */
    static ReadOnlyFiles in(Path folder) throws IOException {
        Path file = folder.resolve(DatabaseFiles.NAME);
        if (!Files.isRegularFile(file)) {
            throw DatabaseNotOpenedException.absent(folder);
        }
        ReadOnlyFiles here = new ReadOnlyFiles(file.toAbsolutePath());
        boolean inPlace = !here.hasLog() || Files.isWritable(folder) && Files.exists(here.beside("-shm"));
        return inPlace ? here : here.copy();
    }

    /** The address for the driver. Where there is no log nobody writes, and nothing beside the file is needed. */
    String address() {
        return file.toUri().toString().replaceFirst("^file:/+", "file:/") + (hasLog() ? "?mode=ro" : "?immutable=1");
    }

    private boolean hasLog() {
        return Files.exists(beside("-wal"));
    }

    private Path beside(String end) {
        return file.resolveSibling(file.getFileName() + end);
    }

    private ReadOnlyFiles copy() throws IOException {
        Path folder = Files.createTempDirectory("tamponade-copy");
        folder.toFile().deleteOnExit();
        ReadOnlyFiles copy = new ReadOnlyFiles(folder.resolve(DatabaseFiles.NAME));
        for (String end : new String[] {"", "-wal", "-shm"}) {
            copy.beside(end).toFile().deleteOnExit();
        }
        Files.copy(file, copy.file, StandardCopyOption.COPY_ATTRIBUTES);
        Files.copy(beside("-wal"), copy.beside("-wal"));
        return copy;
    }
}
