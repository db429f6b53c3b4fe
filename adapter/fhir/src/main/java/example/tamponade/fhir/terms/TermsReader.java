package example.tamponade.fhir.terms;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.IParser;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.CodeSystem;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.ConceptMap;
import org.hl7.fhir.r4.model.Enumerations.ConceptMapEquivalence;
import org.hl7.fhir.utilities.npm.NpmPackage;

/** Reads code systems and concept maps from the package. */
final class TermsReader {

    private static final String EVENT_PROPERTY = "/CodeSystem/event-property";
    private static final Set<ConceptMapEquivalence> SAME =
            EnumSet.of(ConceptMapEquivalence.EQUAL, ConceptMapEquivalence.EQUIVALENT);

    private final Map<String, Map<String, String>> displays = new HashMap<>();
    private final Map<String, List<Coding>> standard = new HashMap<>();
    private final Map<String, String> properties = new HashMap<>();

    private TermsReader() {}

    static Terms read() {
        try {
            return new TermsReader().read(PublishedPackage.open());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private Terms read(NpmPackage npm) throws IOException {
        IParser json = FhirContext.forR4Cached().newJsonParser();
        for (String file : npm.listResources("CodeSystem")) {
            add(json.parseResource(CodeSystem.class, npm.loadResource(file)));
        }
        for (String file : npm.listResources("ConceptMap")) {
            add(json.parseResource(ConceptMap.class, npm.loadResource(file)));
        }
        return new Terms(
                npm.canonical(), npm.version(), Map.copyOf(displays), Map.copyOf(standard), Map.copyOf(properties));
    }

    private void add(CodeSystem system) {
        Map<String, String> codes = new HashMap<>();
        system.getConcept().forEach(it -> codes.put(it.getCode(), it.getDisplay()));
        displays.put(system.getUrl(), Map.copyOf(codes));
    }

    private void add(ConceptMap map) {
        for (ConceptMap.ConceptMapGroupComponent group : map.getGroup()) {
            if (group.getTarget().endsWith(EVENT_PROPERTY)) {
                addProperties(group);
                continue;
            }
            for (ConceptMap.SourceElementComponent source : group.getElement()) {
                List<Coding> same = source.getTarget().stream()
                        .filter(it -> SAME.contains(it.getEquivalence()))
                        .map(it -> new Coding(group.getTarget(), it.getCode(), it.getDisplay()))
                        .toList();
                standard.merge(group.getSource() + "|" + source.getCode(), same, TermsReader::joined);
            }
        }
    }

    private void addProperties(ConceptMap.ConceptMapGroupComponent group) {
        for (ConceptMap.SourceElementComponent source : group.getElement()) {
            properties.put(
                    group.getSource() + "|" + source.getCode(),
                    source.getTargetFirstRep().getCode());
        }
    }

    private static List<Coding> joined(List<Coding> some, List<Coding> more) {
        return Stream.concat(some.stream(), more.stream()).toList();
    }
}
