package example.tamponade.fhir.site;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.core.yaml.NotYamlException;
import example.tamponade.core.yaml.YamlBlock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.BooleanType;
import org.hl7.fhir.r4.model.CodeType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.StringType;
import org.hl7.fhir.r4.model.StructureDefinition;
import org.hl7.fhir.r4.model.Type;
import org.hl7.fhir.r4.model.UriType;
import org.jspecify.annotations.Nullable;

/** Reads an adaptation file, collecting every problem before it refuses. */
final class AdaptationReader {

    private static final Map<String, Function<YamlBlock, Type>> VALUES = Map.of(
            "string", it -> new StringType(it.text("value")),
            "code", it -> new CodeType(it.text("value")),
            "uri", it -> new UriType(it.text("value")),
            "boolean", AdaptationReader::truth,
            "coding", AdaptationReader::coding,
            "codeable-concept", it -> new CodeableConcept(coding(it)));

    private final String name;
    private final SitePackages packages;
    private final Set<String> ownProfiles;
    private final List<String> problems = new ArrayList<>();

    private AdaptationReader(String name, SitePackages packages, Set<String> ownProfiles) {
        this.name = name;
        this.packages = packages;
        this.ownProfiles = ownProfiles;
    }

    /**
     * Reads a file.
     *
     * @param name the file, for people
     * @param packages what it may name
     * @param ownProfiles the names of the adapter's profiles
     * @throws UnusableAdaptationException with every problem, its line and the remedy
     */
    static Adaptation read(String name, String yaml, SitePackages packages, Set<String> ownProfiles) {
        AdaptationReader reader = new AdaptationReader(name, packages, ownProfiles);
        try {
            Adaptation adaptation = reader.adaptation(YamlBlock.read(name, yaml, reader.problems));
            if (reader.problems.isEmpty()) {
                return adaptation;
            }
        } catch (NotYamlException e) {
            reader.problems.add(String.valueOf(e.getMessage()));
        }
        throw new UnusableAdaptationException(name, reader.problems);
    }

    private Adaptation adaptation(YamlBlock file) {
        file.allowOnly(Set.of("profiles", "identifier-systems", "facilities", "concept-maps", "extensions"));
        Adaptation read = new Adaptation(
                name,
                each(file, "profiles", this::claim),
                each(file, "identifier-systems", AdaptationReader::system),
                each(file, "facilities", AdaptationReader::facility),
                each(file, "concept-maps", this::map),
                each(file, "extensions", this::extension));
        Set<String> sent =
                read.systems().stream().map(Adaptation.SystemName::sent).collect(Collectors.toSet());
        read.systems().stream()
                .filter(it -> sent.contains(it.site()))
                .forEach(it -> problems.add("line " + it.line() + ": " + it.site()
                        + " is the name of a sender's system too; use one that no sender uses"));
        return read;
    }

    private static <T> List<T> each(YamlBlock file, String key, Function<YamlBlock, T> read) {
        return file.optionalBlocks(key).stream().map(read).toList();
    }

    private Adaptation.Claim claim(YamlBlock block) {
        block.allowOnly(Set.of("resource", "profile"));
        String resource = resource(block);
        String profile = block.text("profile");
        StructureDefinition definition = packages.definition(profile);
        if (definition == null) {
            block.problem("no package has the profile " + profile + "; give its package with --package, or correct it");
        } else if (Character.isUpperCase(resource.charAt(0))
                && !definition.getType().equals(resource)) {
            block.problem(profile + " is a profile of " + definition.getType() + ", not of " + resource
                    + "; name the type that it is of");
        }
        return new Adaptation.Claim(resource, profile, block.line());
    }

    private String resource(YamlBlock block) {
        String resource = block.text("resource");
        boolean known = ownProfiles.contains(resource)
                || FhirContext.forR4Cached().getResourceTypes().contains(resource);
        if (!known) {
            block.problem("'" + resource + "' is neither a resource type nor one of the adapter's profiles; use one as"
                    + " Patient or mother");
        }
        return resource.isEmpty() ? "?" : resource;
    }

    private static Adaptation.SystemName system(YamlBlock block) {
        block.allowOnly(Set.of("sent", "site"));
        return new Adaptation.SystemName(block.text("sent"), block.text("site"), block.line());
    }

    private static Adaptation.FacilityId facility(YamlBlock block) {
        block.allowOnly(Set.of("facility", "type", "system", "value"));
        String type = block.text("type");
        if (!Set.of("Organization", "Location").contains(type)) {
            block.problem("has no type '" + type + "'; use Organization or Location");
        }
        Identifier identifier = new Identifier().setSystem(block.text("system")).setValue(block.text("value"));
        return new Adaptation.FacilityId(block.text("facility"), type, identifier, block.line());
    }

    private Adaptation.MapUse map(YamlBlock block) {
        block.allowOnly(Set.of("map"));
        String url = block.text("map");
        if (packages.map(url) == null) {
            block.problem("no package has the concept map " + url + "; give its package with --package, or correct it");
        }
        return new Adaptation.MapUse(url, block.line());
    }

    private Adaptation.FixedExtension extension(YamlBlock block) {
        block.allowOnly(Set.of("resource", "url", "value-type", "value", "system", "display"));
        String url = block.text("url");
        if (packages.definition(url) == null) {
            block.problem("no package has the extension " + url + "; give its package with --package, or correct it");
        }
        String type = block.text("value-type");
        Function<YamlBlock, Type> value = VALUES.get(type);
        if (value == null) {
            block.problem("has no value-type '" + type + "'; use one of "
                    + VALUES.keySet().stream().sorted().toList());
            return new Adaptation.FixedExtension(resource(block), new Extension(url), block.line());
        }
        return new Adaptation.FixedExtension(
                resource(block), new Extension(url, Objects.requireNonNull(value.apply(block))), block.line());
    }

    private static Coding coding(YamlBlock block) {
        @Nullable String display = block.optionalText("display");
        return new Coding(block.text("system"), block.text("value"), display);
    }

    private static Type truth(YamlBlock block) {
        String value = block.text("value");
        if (!Set.of("true", "false").contains(value)) {
            block.problem("has the value '" + value + "'; use true or false");
        }
        return new BooleanType(Boolean.parseBoolean(value));
    }
}
