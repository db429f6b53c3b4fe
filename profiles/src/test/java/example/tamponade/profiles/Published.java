package example.tamponade.profiles;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import ca.uhn.fhir.validation.SingleValidationMessage;
import ca.uhn.fhir.validation.ValidationOptions;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;

/** The package as whoever uses it finds it: its files, and what a validator that knows the package says. */
final class Published {

    static final String BASE = "https://tamponade-adapter.example/fhir";
    /**
     * The definitions of R4, which the library keeps once for all its validators and completes as it works: whoever makes
     * another validator has them alone.
     */
    static final String DEFINITIONS = "definitions of R4";

    static final FhirContext FHIR = FhirContext.forR4Cached();

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Map<String, ObjectNode> FILES = unpack();
    private static final FhirValidator VALIDATOR = validator();

    private Published() {}

    /** Every file by its path in the archive, in order. */
    static Map<String, ObjectNode> files() {
        return FILES;
    }

    /** The resources of a folder. */
    static Stream<ObjectNode> resources(String folder) {
        return FILES.entrySet().stream()
                .filter(file -> file.getKey().matches(folder + "/[A-Z][^/]*"))
                .map(Map.Entry::getValue);
    }

    /** The conformance resources of a type. */
    static Stream<ObjectNode> all(String type) {
        return resources("package")
                .filter(resource -> text(resource, "resourceType").equals(type));
    }

    /** The profiles that a resource can claim. */
    static Stream<ObjectNode> profiles() {
        return all("StructureDefinition")
                .filter(profile -> !text(profile, "type").equals("Extension"))
                .filter(profile -> !profile.path("abstract").asBoolean());
    }

    static Stream<ObjectNode> examples() {
        return resources("package/example");
    }

    /** The example of a profile, for example {@code blood-loss} and {@code drape}. */
    static ObjectNode example(String profile, String name) {
        return examples()
                .filter(example -> text(example, "id").equals(profile + "-" + name))
                .findFirst()
                .orElseThrow(() -> new AssertionError("no example " + profile + "/" + name));
    }

    /** The id of the profile that a resource claims. */
    static String profileOf(ObjectNode resource) {
        return resource.at("/meta/profile/0").asText().substring((BASE + "/StructureDefinition/").length());
    }

    static String text(JsonNode node, String property) {
        return node.path(property).asText();
    }

    /** What the validator says, mere information left out. */
    static List<SingleValidationMessage> validate(ObjectNode resource) {
        return VALIDATOR.validateWithResult(resource.toString()).getMessages().stream()
                .filter(message -> message.getSeverity() != ResultSeverityEnum.INFORMATION)
                .toList();
    }

    /** The validator's errors when held to a profile, claimed or not, each as {@code path: message}. */
    static List<String> errors(ObjectNode resource, String profile) {
        return errors(resource, new ValidationOptions().addProfile(BASE + "/StructureDefinition/" + profile));
    }

    /** The validator's errors when held to what it claims, each as {@code path: message}. */
    static List<String> errors(ObjectNode resource) {
        return errors(resource, new ValidationOptions());
    }

    private static List<String> errors(ObjectNode resource, ValidationOptions options) {
        return VALIDATOR.validateWithResult(resource.toString(), options).getMessages().stream()
                .filter(message -> message.getSeverity().ordinal() >= ResultSeverityEnum.ERROR.ordinal())
                .map(message -> message.getLocationString() + ": " + message.getMessage())
                .toList();
    }

    private static FhirValidator validator() {
        FhirInstanceValidator instances = new FhirInstanceValidator(RecordPackage.support(FHIR));
        instances.setErrorForUnknownProfiles(true);
        return FHIR.newValidator().registerValidatorModule(instances);
    }

    private static Map<String, ObjectNode> unpack() {
        String path = RecordPackage.LOCATION.replace("classpath:", "/");
        try (InputStream in = Objects.requireNonNull(Published.class.getResourceAsStream(path));
                TarArchiveInputStream tar = new TarArchiveInputStream(new GZIPInputStream(in))) {
            Map<String, ObjectNode> files = new TreeMap<>();
            for (TarArchiveEntry entry = tar.getNextEntry(); entry != null; entry = tar.getNextEntry()) {
                files.put(entry.getName(), (ObjectNode) JSON.readTree(tar.readAllBytes()));
            }
            return files;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
