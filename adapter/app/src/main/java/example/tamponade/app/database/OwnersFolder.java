package example.tamponade.app.database;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileAttribute;
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

    /**
     * Writes a file of its owner's alone into a folder that is there; whoever reads meanwhile finds the former or the new one.
     *
     * @throws IOException when it cannot be written
     */
    public static void write(Path file, String text) throws IOException {
        Path folder = file.toAbsolutePath().getParent();
        boolean posix = folder != null && Files.getFileStore(folder).supportsFileAttributeView("posix");
        FileAttribute<?>[] ownersAlone = posix
                ? new FileAttribute<?>[] {
                    PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"))
                }
                : new FileAttribute<?>[0];
        Path next = Files.createTempFile(folder, "next", ".part", ownersAlone);
        Files.writeString(next, text);
        Files.move(next, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    }

    static void keep(Path folder) throws IOException {
        if (folder.getFileSystem().supportedFileAttributeViews().contains("posix")) {
            Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwx------"));
        }
    }
}
