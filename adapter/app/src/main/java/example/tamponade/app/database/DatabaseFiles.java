package example.tamponade.app.database;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The files of the embedded database: its owner's alone, and the same ones as long as it is open. SQLite goes on writing to a
 * file that was deleted or replaced, where nobody finds it again.
 */
final class DatabaseFiles {

    static final String NAME = "tamponade.sqlite";

    private static final Set<PosixFilePermission> OWNERS_FILE = PosixFilePermissions.fromString("rw-------");
    private static final Set<PosixFilePermission> OTHERS_WRITE =
            EnumSet.of(PosixFilePermission.GROUP_WRITE, PosixFilePermission.OTHERS_WRITE);

    private final Path folder;
    private final Map<Path, @Nullable Object> opened = new LinkedHashMap<>();

    private DatabaseFiles(Path folder) {
        this.folder = folder;
    }

    /**
     * Makes the folder and the file where they are not there yet, for their owner alone.
     *
     * @throws IOException when they cannot be made
     * @throws DatabaseNotOpenedException when others than the owner can write there
     */
    static DatabaseFiles in(Path folder) throws IOException {
        DatabaseFiles files = new DatabaseFiles(folder);
        if (!Files.isDirectory(folder)) {
            OwnersFolder.make(folder);
        }
        files.refuseOthersWrite(folder);
        Path file = files.file();
        if (!Files.exists(file)) {
            Files.createFile(file);
        }
        files.refuseOthersWrite(file);
        restrict(file, OWNERS_FILE);
        return files;
    }

    /** The address for the driver. A connection that is opened later makes no new file where this one is gone. */
    String address() {
        return file().toAbsolutePath().toUri().toString().replaceFirst("^file:/+", "file:/") + "?mode=rw";
    }

    /** The database's file; its log stands beside it and has the same permissions. */
    Path file() {
        return folder.resolve(NAME);
    }

    private static void restrict(Path path, Set<PosixFilePermission> permissions) throws IOException {
        if (posix(path)) {
            Files.setPosixFilePermissions(path, permissions);
        }
    }

    private void refuseOthersWrite(Path path) throws IOException {
        if (posix(path)) {
            Set<PosixFilePermission> others = EnumSet.copyOf(OTHERS_WRITE);
            others.retainAll(Files.getPosixFilePermissions(path));
            if (!others.isEmpty()) {
                throw DatabaseNotOpenedException.writableByOthers(path);
            }
        }
    }

    private static boolean posix(Path path) {
        return path.getFileSystem().supportedFileAttributeViews().contains("posix");
    }

    /** Remembers which files are open now. */
    void remember() throws IOException {
        for (Path path : new Path[] {file(), folder.resolve(NAME + "-wal")}) {
            opened.put(path, key(path));
        }
    }

    /**
     * Looks whether the files are still those that were opened.
     *
     * @throws DatabaseGoneException when one was deleted, moved or replaced
     */
    void demandSame() {
        opened.forEach((path, key) -> {
            if (!Objects.equals(key, keyOrNull(path))) {
                throw new DatabaseGoneException(path);
            }
        });
    }

    private static @Nullable Object keyOrNull(Path path) {
        try {
            return key(path);
        } catch (IOException e) {
            return null;
        }
    }

    // A file system without keys tells two files apart by when they were made.
    private static Object key(Path path) throws IOException {
        BasicFileAttributes attributes =
                Files.readAttributes(path, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS);
        return attributes.fileKey() == null ? attributes.creationTime() : attributes.fileKey();
    }
}
