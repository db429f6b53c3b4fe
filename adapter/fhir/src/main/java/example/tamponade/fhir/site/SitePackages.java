package example.tamponade.fhir.site;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.DataFormatException;
import example.tamponade.fhir.conformance.Conformance;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.ConceptMap;
import org.hl7.fhir.r4.model.StructureDefinition;
import org.hl7.fhir.utilities.npm.NpmPackage;
import org.jspecify.annotations.Nullable;

/** A site's FHIR packages: gzipped tar files as FHIR registries give them. */
public final class SitePackages {

    private final List<byte[]> files = new ArrayList<>();
    private final Map<String, StructureDefinition> definitions = new HashMap<>();
    private final Map<String, ConceptMap> maps = new HashMap<>();

    private SitePackages() {}

    /** No packages. */
    static SitePackages none() {
        return new SitePackages();
    }

    /**
     * Reads them.
     *
     * @throws UnusableAdaptationException naming the file that is not readable as a FHIR package, and the remedy
     */
    public static SitePackages read(List<Path> packages) {
        SitePackages site = new SitePackages();
        packages.forEach(site::add);
        return site;
    }

    private void add(Path file) {
        try {
            byte[] tgz = Files.readAllBytes(file);
            NpmPackage npm = NpmPackage.fromPackage(new ByteArrayInputStream(tgz));
            for (String type : List.of("StructureDefinition", "ConceptMap")) {
                for (String name : npm.listResources(type)) {
                    String json = new String(npm.loadResource(name).readAllBytes(), StandardCharsets.UTF_8);
                    add(FhirContext.forR4Cached().newJsonParser().parseResource(json));
                }
            }
            files.add(tgz);
        } catch (IOException | DataFormatException e) {
            throw new UnusableAdaptationException(
                    file.toString(),
                    List.of("not readable as a FHIR R4 package, a .tgz with package/package.json in it ("
                            + e.getMessage() + "); check the file and its address"));
        }
    }

    private void add(Object resource) {
        if (resource instanceof StructureDefinition definition) {
            definitions.put(definition.getUrl(), definition);
        } else if (resource instanceof ConceptMap map) {
            maps.put(map.getUrl(), map);
        }
    }

    /**
     * Holds resources to the published package and to these.
     *
     * @param cache a folder where what takes seconds to make is kept; null: it is made anew
     * @throws IOException when the cache cannot be written
     */
    public Conformance conformance(@Nullable Path cache) throws IOException {
        return Conformance.with(files, cache);
    }

    /** The profile or extension of that address; null when no package has it. */
    @Nullable
    StructureDefinition definition(String url) {
        return definitions.get(url.replaceFirst("\\|.*", ""));
    }

    /** The concept map of that address; null when no package has it. */
    @Nullable
    ConceptMap map(String url) {
        return maps.get(url.replaceFirst("\\|.*", ""));
    }
}
