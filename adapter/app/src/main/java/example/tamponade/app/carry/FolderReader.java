package example.tamponade.app.carry;

import example.tamponade.app.intake.Piece;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** Looks whether a folder is as it was written, before anything of it is taken. */
public final class FolderReader {

    private static final Pattern NAME = Pattern.compile("events-\\d{4,9}\\.ndjson");

    private FolderReader() {}

    /**
     * The files to be taken, in order.
     *
     * @throws DamagedFolderException when a part was changed, is missing, repeated or not named; every fault is named
     * @throws IOException when the folder cannot be read
     */
    public static List<Path> parts(Path folder) throws IOException {
        Manifest manifest = Manifest.read(folder.resolve(Manifest.NAME));
        List<String> faults = new ArrayList<>();
        Set<String> names = new HashSet<>();
        List<Path> parts = new ArrayList<>();
        for (Manifest.Part part : manifest.parts()) {
            if (!names.add(part.name())) {
                faults.add(part.name() + " is named twice: carry the folder again");
            } else if (!NAME.matcher(part.name()).matches()) {
                faults.add(part.name() + " is no name of a part: carry the folder again");
            } else {
                check(folder.resolve(part.name()), part, faults);
                parts.add(folder.resolve(part.name()));
            }
        }
        try (Stream<Path> there = Files.list(folder)) {
            there.map(it -> String.valueOf(it.getFileName()))
                    .filter(it -> NAME.matcher(it).matches() && !names.contains(it))
                    .forEach(it -> faults.add(it + " is not in the manifest: remove it, or carry the folder again"));
        }
        if (!faults.isEmpty()) {
            throw new DamagedFolderException(faults);
        }
        return parts;
    }

    private static void check(Path file, Manifest.Part part, List<String> faults) throws IOException {
        if (!Files.exists(file)) {
            faults.add(part.name() + " is missing: carry the folder again, whole");
        } else if (!digest(file).equals(part.sha256())) {
            faults.add(part.name() + " was changed: carry the folder again");
        }
    }

    // A part may be larger than memory, whoever made it so.
    private static String digest(Path file) throws IOException {
        try (InputStream bytes = Files.newInputStream(file)) {
            return Piece.digest(bytes);
        }
    }
}
