package example.tamponade.profiles.build;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.parser.IParser;
import ca.uhn.fhir.parser.StrictErrorHandler;
import ca.uhn.hapi.converters.canonical.VersionCanonicalizer;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.PrePopulatedValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.ProfileKnowledgeWorkerR5;
import org.hl7.fhir.common.hapi.validation.validator.WorkerContextValidationSupportAdapter;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.hl7.fhir.r4.model.ElementDefinition;
import org.hl7.fhir.r4.model.StructureDefinition;
import org.hl7.fhir.r5.conformance.profile.ProfileUtilities;
import org.hl7.fhir.utilities.validation.ValidationMessage;

/** Generates the snapshot of every profile, parents before children, and refuses what the generator warns of. */
final class Snapshots {

    private final FhirContext fhir;
    private final IParser parser;
    private final PrePopulatedValidationSupport ours;
    private final ValidationSupportChain chain;
    private final VersionCanonicalizer versions;
    private final Map<String, StructureDefinition> pending = new LinkedHashMap<>();
    private final Map<String, StructureDefinition> done = new LinkedHashMap<>();

    Snapshots(FhirContext fhir, List<ObjectNode> terminology) {
        this.fhir = fhir;
        parser = fhir.newJsonParser().setParserErrorHandler(new StrictErrorHandler());
        ours = new PrePopulatedValidationSupport(fhir);
        chain = new ValidationSupportChain(
                ValidationSupportChain.CacheConfiguration.disabled(),
                ours,
                new DefaultProfileValidationSupport(fhir),
                new InMemoryTerminologyServerValidationSupport(fhir));
        versions = new VersionCanonicalizer(fhir);
        terminology.forEach(resource -> ours.addResource(parse(resource, IBaseResource.class)));
    }

    List<ObjectNode> of(List<ObjectNode> differentials) {
        for (ObjectNode differential : differentials) {
            StructureDefinition profile = parse(differential, StructureDefinition.class);
            pending.put(profile.getUrl(), profile);
        }
        pending.values().forEach(ours::addStructureDefinition);
        pending.keySet().forEach(this::generated);
        return pending.keySet().stream().map(url -> json(generated(url))).toList();
    }

    private StructureDefinition generated(String url) {
        StructureDefinition known = done.get(url);
        if (known != null) {
            return known;
        }
        StructureDefinition profile = pending.get(url);
        if (profile == null) {
            throw new IllegalArgumentException("no such profile: " + url);
        }
        StructureDefinition parent = pending.containsKey(profile.getBaseDefinition())
                ? generated(profile.getBaseDefinition())
                : (StructureDefinition) chain.fetchStructureDefinition(profile.getBaseDefinition());
        if (parent == null || !parent.hasSnapshot()) {
            throw new IllegalArgumentException(url + " has an unknown parent: " + profile.getBaseDefinition());
        }
        StructureDefinition generated = generate(sorted(profile, parent));
        ours.addStructureDefinition(generated);
        done.put(url, generated);
        return generated;
    }

    /** The generator wants elements in the parent's order; within one element the source's order stands. */
    private static StructureDefinition sorted(StructureDefinition profile, StructureDefinition parent) {
        List<String> order = parent.getSnapshot().getElement().stream()
                .map(ElementDefinition::getPath)
                .toList();
        List<ElementDefinition> elements =
                new ArrayList<>(profile.getDifferential().getElement());
        for (ElementDefinition element : elements) {
            if (order.indexOf(top(element)) < 0) {
                throw new IllegalArgumentException(profile.getUrl() + " has no element " + top(element));
            }
        }
        elements.sort(Comparator.comparingInt(element -> order.indexOf(top(element))));
        profile.getDifferential().setElement(elements);
        return profile;
    }

    /** The first two steps of the path: {@code Observation.component} for {@code Observation.component.code}. */
    private static String top(ElementDefinition element) {
        String path = element.getPath();
        int second = path.indexOf('.', path.indexOf('.') + 1);
        return second < 0 ? path : path.substring(0, second);
    }

    private StructureDefinition generate(StructureDefinition profile) {
        org.hl7.fhir.r5.model.StructureDefinition canonical = versions.structureDefinitionToCanonical(profile);
        WorkerContextValidationSupportAdapter context = new WorkerContextValidationSupportAdapter(chain);
        org.hl7.fhir.r5.model.StructureDefinition parent =
                context.fetchResource(org.hl7.fhir.r5.model.StructureDefinition.class, profile.getBaseDefinition());
        List<ValidationMessage> messages = new ArrayList<>();
        new ProfileUtilities(context, messages, new ProfileKnowledgeWorkerR5(fhir))
                .generateSnapshot(parent, canonical, profile.getUrl(), "", profile.getName());
        messages.removeIf(message -> message.getLevel() == ValidationMessage.IssueSeverity.INFORMATION);
        if (!messages.isEmpty()) {
            throw new IllegalArgumentException(profile.getUrl() + ": " + messages);
        }
        StructureDefinition generated = (StructureDefinition) versions.structureDefinitionFromCanonical(canonical);
        // FHIR's own, of which some break FHIR's own rules; nobody reads them in a profile of ours.
        generated.getSnapshot().getElement().forEach(it -> it.setExample(null));
        return generated;
    }

    private <T extends IBaseResource> T parse(ObjectNode resource, Class<T> type) {
        try {
            return type.cast(parser.parseResource(resource.toString()));
        } catch (RuntimeException e) {
            throw new IllegalArgumentException(resource.path("url").asText() + " is not FHIR R4: " + e.getMessage(), e);
        }
    }

    private ObjectNode json(StructureDefinition profile) {
        try {
            return (ObjectNode) Sources.JSON.readTree(parser.encodeResourceToString(profile));
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("the parser wrote no JSON", e);
        }
    }
}
