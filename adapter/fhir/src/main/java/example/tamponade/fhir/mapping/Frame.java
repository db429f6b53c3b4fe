package example.tamponade.fhir.mapping;

import example.tamponade.fhir.terms.Narratives;
import example.tamponade.fhir.terms.Terms;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import org.hl7.fhir.r4.model.DomainResource;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.Type;

/** What every resource has alike: id, profile, source, marks and narrative. */
final class Frame {

    private final Terms terms;

    Frame(Terms terms) {
        this.terms = terms;
    }

    /** Puts id, profile and narrative on a resource that no single event brought. */
    <T extends DomainResource> T on(T resource, String id, String profile, List<String> lines) {
        resource.setId(id);
        resource.getMeta().addProfile(terms.profile(profile));
        resource.setText(Narratives.of(lines));
        return resource;
    }

    /** Names the event that a resource came from. */
    void source(Resource resource, UUID event) {
        resource.getMeta().setSource("urn:uuid:" + event);
    }

    /** Marks a doubt about the quality of the data; codes of our data-quality code system. */
    void tag(Resource resource, Collection<String> codes) {
        codes.forEach(it -> resource.getMeta().addTag(terms.coding(terms.system("data-quality"), it)));
    }

    Extension extension(String id, Type value) {
        return new Extension(terms.profile(id), value);
    }
}
