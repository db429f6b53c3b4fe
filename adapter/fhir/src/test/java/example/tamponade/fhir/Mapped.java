package example.tamponade.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.fhir.mapping.Changes;
import java.util.List;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;

/** Finds resources in what was mapped. */
public final class Mapped {

    private final List<Resource> resources;

    public Mapped(List<Resource> resources) {
        this.resources = resources;
    }

    /** The invented case, mapped. */
    public static Mapped ofInventedCase() {
        return ofCase(InventedCase.events());
    }

    /** A case of these data, one a minute, mapped; the first opens nothing. */
    public static Mapped of(BedsideEvent... data) {
        return ofCase(InventedCase.eventsOf(data));
    }

    /** A case of these events, mapped. */
    public static Mapped ofCase(List<EventEnvelope> events) {
        return new Mapped(Shared.MAPPER.resources(InventedCase.file(events), events, InventedCase::digest));
    }

    /** These events of a facility, mapped. */
    public static Mapped ofFacility(List<EventEnvelope> events) {
        CaseFile file = CaseFile.of(null, InventedCase.PROTOCOL, events);
        return new Mapped(Shared.MAPPER.map(file, Changes.everythingOfFacility(file), InventedCase::digest));
    }

    public List<Resource> all() {
        return resources;
    }

    /** Every resource of a profile, in order. */
    public <T extends Resource> List<T> all(Class<T> type, String profile) {
        return resources.stream()
                .filter(it -> profileOf(it).equals(profile))
                .map(type::cast)
                .toList();
    }

    /** The only resource of a profile. */
    public <T extends Resource> T one(Class<T> type, String profile) {
        List<T> all = all(type, profile);
        assertThat(all).as(profile).hasSize(1);
        return all.get(0);
    }

    public Observation observation(String profile) {
        return one(Observation.class, profile);
    }

    /** The resource that a reference leads to. */
    public Resource at(Reference reference) {
        return resources.stream()
                .filter(it -> reference.getReference().equals(it.fhirType() + "/" + it.getIdPart()))
                .findFirst()
                .orElseThrow(() -> new AssertionError("dangling " + reference.getReference()));
    }

    /** The id of the profile that a resource names. */
    public static String profileOf(Resource resource) {
        String profile = resource.getMeta().getProfile().get(0).getValue();
        return profile.substring(profile.lastIndexOf('/') + 1);
    }

    /** Every reference in a resource that leads to another. */
    public static Stream<Reference> references(Base element) {
        Stream<Reference> own = element instanceof Reference reference && reference.hasReference()
                ? Stream.of(reference)
                : Stream.empty();
        return Stream.concat(
                own,
                element.children().stream()
                        .flatMap(it -> it.getValues().stream())
                        .flatMap(Mapped::references));
    }

    /** The codes of the data-quality tags of a resource. */
    public static List<String> tags(Resource resource) {
        return resource.getMeta().getTag().stream().map(Coding::getCode).toList();
    }

    public static String json(Resource resource) {
        return FhirContext.forR4Cached().newJsonParser().encodeResourceToString(resource);
    }
}
