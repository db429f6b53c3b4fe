package example.tamponade.app.database;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;

/** A folder for what is of patients: its owner's alone. */
public final class OwnersFolder {

    private OwnersFolder() {}

    /**
     * Makes the folder, and those that it stands in, and takes every permission on it from all but its owner.
     *
     * @throws IOException when that cannot be done
     */
    public static Path make(Path folder) throws IOException {
        Files.createDirectories(folder);
        keep(folder);
        return folder;
    }

    static void keep(Path folder) throws IOException {
        if (folder.getFileSystem().supportedFileAttributeViews().contains("posix")) {
            Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwx------"));
        }
    }
}
