package example.tamponade.app.path;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.record.ResourceRecord;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** The record as it will be when a run of events is on it: what the run puts there lies over what is there already. */
final class NewVersions {

    private final FhirContext fhir = FhirContext.forR4Cached();
    private final ResourceRecord record;
    private final Map<String, Resource> latest = new HashMap<>();
    private final List<Resource> stated = new ArrayList<>();
    private final List<Resource> changed = new ArrayList<>();

    NewVersions(ResourceRecord record) {
        this.record = record;
    }

    /** The latest version of a resource, without its number; empty when there is none. */
    Optional<Resource> current(String type, String id) {
        return Optional.ofNullable(latest(type, id)).map(Resource::copy);
    }

    /** Adds what an event makes of its resources; what it leaves as it is comes once. */
    void add(List<Resource> resources) {
        for (Resource resource : resources) {
            String name = name(resource.fhirType(), resource.getIdPart());
            boolean first = !latest.containsKey(name);
            boolean differs = differs(latest(resource.fhirType(), resource.getIdPart()), resource);
            if (differs) {
                changed.add(resource);
            }
            if (first || differs) {
                latest.put(name, resource);
                stated.add(resource);
            }
        }
    }

    /** Every version that the events named, in order; a resource that stays as it is on record among them. */
    List<Resource> stated() {
        return stated;
    }

    /** The versions that are not on record yet, in order. */
    List<Resource> changed() {
        return changed;
    }

    private @Nullable Resource latest(String type, String id) {
        Resource known = latest.get(name(type, id));
        if (known != null) {
            return known;
        }
        Resource stored = record.current(type, id).orElse(null);
        if (stored != null) {
            stored.getMeta().setVersionId(null);
        }
        return stored;
    }

    private boolean differs(@Nullable Resource before, Resource now) {
        return before == null || !written(before).equals(written(now));
    }

    private String written(Resource resource) {
        return fhir.newJsonParser().encodeResourceToString(resource);
    }

    private static String name(String type, String id) {
        return type + "/" + id;
    }
}
