package example.tamponade.profiles.build;

import ca.uhn.fhir.context.FhirContext;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import example.tamponade.terminology.Imprint;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** Builds the package, step by step: sources, snapshots, forms and search parameters, examples, guide, archive. */
public final class PackageBuild {

    private PackageBuild() {}

    /**
     * Arguments: source folder, the archive, its folder on the class path, version, timestamp of the build, the folder
     * of the guide's pages.
     */
    public static void main(String[] args) throws IOException {
        Imprint imprint = Imprint.of(args[3], args[4]);
        Path source = Path.of(args[0]);
        FhirContext fhir = FhirContext.forR4();

        List<ObjectNode> terminology = Sources.terminology();
        List<ObjectNode> differentials = new Differentials(imprint, source).all();
        List<ObjectNode> profiles = new Snapshots(fhir, terminology).of(differentials);
        List<ObjectNode> forms = Stream.of("Questionnaire", "SearchParameter", "Measure")
                .flatMap(type -> Sources.files(source.resolve(type)).stream())
                .map(file -> imprint.stamp(imprint.read(file)))
                .toList();
        List<ObjectNode> examples = new Examples(imprint, source.resolve("example")).all();
        ObjectNode guide = new Guide(imprint, source).listing(artifacts(profiles, forms), terminology, examples);

        PackageArchive archive = new PackageArchive(imprint, guide);
        archive.add("package", terminology);
        archive.add("package", profiles);
        archive.add("package", forms);
        archive.add("package", List.of(guide));
        archive.add("package/example", examples);
        Path classPath = Path.of(args[2]);
        archive.write(Path.of(args[1]), classPath.resolve("package.tgz"));
        Files.writeString(classPath.resolve("terms.json"), terms(imprint, terminology, profiles, forms));

        JsonNode comesFrom = Sources.JSON.readTree(Files.readString(source.resolve("guide/comes-from.json")));
        new GuidePages(guide, comesFrom, terminology, examples).write(profiles, Path.of(args[5]));
    }

    // What is asked for at every start stands apart from the snapshots, which take long to read.
    private static String terms(
            Imprint imprint, List<ObjectNode> terminology, List<ObjectNode> profiles, List<ObjectNode> forms) {
        ObjectNode terms = Sources.JSON.createObjectNode();
        terms.put("canonical", imprint.base()).put("version", imprint.version());
        terms.putArray("resources").addAll(terminology).addAll(forms);
        ObjectNode types = terms.putObject("profiles");
        profiles.stream()
                .filter(it -> !it.path("abstract").asBoolean()
                        && !it.path("type").asText().equals("Extension"))
                .forEach(it -> types.put(
                        it.required("url").asText(), it.required("type").asText()));
        return terms.toString();
    }

    private static List<ObjectNode> artifacts(List<ObjectNode> profiles, List<ObjectNode> forms) {
        return Stream.concat(profiles.stream(), forms.stream()).toList();
    }
}
