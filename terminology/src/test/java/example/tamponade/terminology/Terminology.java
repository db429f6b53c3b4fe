package example.tamponade.terminology;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.IParser;
import ca.uhn.fhir.parser.StrictErrorHandler;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.CodeSystem;
import org.hl7.fhir.r4.model.ConceptMap;
import org.hl7.fhir.r4.model.MetadataResource;
import org.hl7.fhir.r4.model.ValueSet;

/** The published resources, read from the class path; a property that FHIR R4 does not have stops the reading. */
final class Terminology {

    static final String BASE = "https://tamponade-adapter.example/fhir";

    private static final IParser PARSER =
            FhirContext.forR4Cached().newJsonParser().setParserErrorHandler(new StrictErrorHandler());

    private Terminology() {}

    static List<CodeSystem> codeSystems() {
        return read(CodeSystem.class);
    }

    static List<ValueSet> valueSets() {
        return read(ValueSet.class);
    }

    static List<ConceptMap> conceptMaps() {
        return read(ConceptMap.class);
    }

    static Stream<MetadataResource> all() {
        return Stream.of(codeSystems(), valueSets(), conceptMaps()).flatMap(List::stream);
    }

    static boolean ours(MetadataResource resource) {
        return resource.getUrl().startsWith(BASE);
    }

    private static <T extends MetadataResource> List<T> read(Class<T> type) {
        try {
            URI folder = Objects.requireNonNull(Terminology.class.getResource(type.getSimpleName()))
                    .toURI();
            try (Stream<Path> files = Files.list(Path.of(folder))) {
                return files.sorted().map(file -> read(type, file)).toList();
            }
        } catch (Exception e) {
            throw new AssertionError("no published " + type.getSimpleName(), e);
        }
    }

    private static <T extends MetadataResource> T read(Class<T> type, Path file) {
        try (InputStream in = Files.newInputStream(file)) {
            return PARSER.parseResource(type, in);
        } catch (IOException e) {
            throw new AssertionError(file + " is not readable", e);
        }
    }
}
