package example.tamponade.app.convert;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.DataFormatException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.r4.model.Resource;

/** What an earlier conversion wrote of a case, in whichever form. */
final class FormerOutput {

    private final FhirContext fhir = FhirContext.forR4Cached();
    private final Path folder;

    /** Reads what was written to that folder. */
    FormerOutput(Path folder) {
        this.folder = folder;
    }

    /**
     * The resources of a case; none when the folder has nothing of it.
     *
     * @param name what its files are called
     * @throws UnreadableOutputException when a file is not what a conversion writes
     */
    List<Resource> resources(String name) throws IOException {
        List<Resource> resources = new ArrayList<>();
        Path lines = folder.resolve(name);
        if (Files.isDirectory(lines)) {
            try (Stream<Path> files = Files.list(lines)) {
                for (Path file : files.sorted().toList()) {
                    for (String line : Files.readAllLines(file)) {
                        resources.add(read(line, file, Resource.class));
                    }
                }
            }
        }
        for (Bundle.BundleType type : List.of(Bundle.BundleType.TRANSACTION, Bundle.BundleType.DOCUMENT)) {
            Path file = folder.resolve(CaseWriter.fileName(name, type));
            if (Files.exists(file)) {
                read(Files.readString(file), file, Bundle.class).getEntry().stream()
                        .map(Bundle.BundleEntryComponent::getResource)
                        .filter(it -> !(it instanceof Composition))
                        .forEach(resources::add);
            }
        }
        return resources;
    }

    private <T> T read(String json, Path file, Class<T> type) {
        try {
            return type.cast(fhir.newJsonParser().parseResource(json));
        } catch (DataFormatException | ClassCastException e) {
            throw new UnreadableOutputException(file + " is not what convert writes (" + e.getMessage()
                    + "); give --against the folder of an earlier" + " conversion as it was written, or leave it out");
        }
    }
}
