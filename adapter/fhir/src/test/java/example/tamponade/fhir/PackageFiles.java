package example.tamponade.fhir;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.IParser;
import example.tamponade.profiles.RecordPackage;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.StructureDefinition;
import org.hl7.fhir.utilities.npm.NpmPackage;

/** The published package as a list of its artifacts. */
public final class PackageFiles {

    private static final List<StructureDefinition> DEFINITIONS = read();

    private PackageFiles() {}

    /** The ids of the profiles that a resource can claim. */
    public static List<String> profiles() {
        return DEFINITIONS.stream()
                .filter(it -> !it.getType().equals("Extension") && !it.getAbstract())
                .map(StructureDefinition::getIdPart)
                .toList();
    }

    /** The profile with that id. */
    public static StructureDefinition profile(String id) {
        return DEFINITIONS.stream()
                .filter(it -> it.getIdPart().equals(id))
                .findFirst()
                .orElseThrow();
    }

    /** The examples of the package as JSON. */
    public static List<String> examples() {
        String path = RecordPackage.LOCATION.replace("classpath:", "/");
        try (InputStream in = PackageFiles.class.getResourceAsStream(path)) {
            NpmPackage npm = NpmPackage.fromPackage(in);
            List<String> examples = new ArrayList<>();
            for (String file : npm.list("example")) {
                if (!file.startsWith(".")) {
                    examples.add(new String(npm.load("example", file).readAllBytes(), StandardCharsets.UTF_8));
                }
            }
            return examples;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static List<StructureDefinition> read() {
        String path = RecordPackage.LOCATION.replace("classpath:", "/");
        try (InputStream in = PackageFiles.class.getResourceAsStream(path)) {
            NpmPackage npm = NpmPackage.fromPackage(in);
            IParser json = FhirContext.forR4Cached().newJsonParser();
            List<StructureDefinition> definitions = new ArrayList<>();
            for (String file : npm.listResources("StructureDefinition")) {
                definitions.add(json.parseResource(StructureDefinition.class, npm.loadResource(file)));
            }
            return definitions;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
