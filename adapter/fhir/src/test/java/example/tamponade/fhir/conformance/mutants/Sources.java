package example.tamponade.fhir.conformance.mutants;

import com.fasterxml.jackson.databind.node.ObjectNode;
import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.PackageFiles;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Resource;

/** What mutants are made of. */
public final class Sources {

    private Sources() {}

    /** The invented case, the package's examples, and what a folder of converted cases holds besides. */
    public static List<ObjectNode> all(String... folders) {
        List<Resource> mapped = new ArrayList<>(Mapped.ofInventedCase().all());
        mapped.addAll(Mapped.ofFacility(InventedCase.facilityEvents()).all());
        List<String> texts = new ArrayList<>(mapped.stream().map(Mapped::json).toList());
        texts.addAll(PackageFiles.examples());
        for (String folder : folders) {
            texts.addAll(converted(Path.of(folder)));
        }
        return texts.stream().map(Mutants::read).toList();
    }

    private static List<String> converted(Path folder) {
        try (Stream<Path> files = Files.walk(folder)) {
            return files.filter(it -> it.toString().endsWith(".ndjson") && !it.endsWith("refused.ndjson"))
                    .sorted()
                    .flatMap(Sources::lines)
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Stream<String> lines(Path file) {
        try {
            return Files.readAllLines(file).stream();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
