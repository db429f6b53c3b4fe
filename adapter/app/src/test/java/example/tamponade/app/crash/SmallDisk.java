package example.tamponade.app.crash;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A file system of 24 MiB in memory, most of it taken by one file. Linux, and only root may make one. */
final class SmallDisk implements AutoCloseable {

    private static final int BALLAST_BYTES = 20 << 20;

    private final Path folder;

    private SmallDisk(Path folder) {
        this.folder = folder;
    }

    static SmallDisk mount(Path folder) throws IOException {
        run("mount", "-t", "tmpfs", "-o", "size=24m", "tmpfs", folder.toString());
        SmallDisk disk = new SmallDisk(folder);
        Files.write(disk.ballast(), new byte[BALLAST_BYTES]);
        return disk;
    }

    private static void run(String... command) throws IOException {
        try {
            int code = new ProcessBuilder(command).inheritIO().start().waitFor();
            if (code != 0) {
                throw new IOException(String.join(" ", command) + " ended with " + code);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException(e);
        }
    }

    /** The file whose removal makes room. */
    Path ballast() {
        return folder.resolve("ballast");
    }

    @Override
    public void close() throws IOException {
        run("umount", folder.toString());
    }
}
