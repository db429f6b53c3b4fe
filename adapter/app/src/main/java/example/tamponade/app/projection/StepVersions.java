package example.tamponade.app.projection;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.record.NewVersion;
import example.tamponade.app.record.VersionStore;
import example.tamponade.fhir.site.Site;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** The record as it will be after a step: what the step puts there lies over what is there already. */
final class StepVersions {

    private final FhirContext fhir = FhirContext.forR4Cached();
    private final VersionStore record;
    private final Site site;
    private final Map<String, Resource> put = new LinkedHashMap<>();
    private final Map<String, Optional<String>> stored = new HashMap<>();

    /** Lies over that record. */
    StepVersions(VersionStore record, Site site) {
        this.record = record;
        this.site = site;
    }

    /** The latest version of a resource; null when there is none. Not to be changed. */
    @Nullable
    Resource latest(String type, String id) {
        String name = type + "/" + id;
        Resource known = put.get(name);
        if (known != null) {
            return known;
        }
        read(List.of(name));
        return Objects.requireNonNull(stored.get(name))
                .map(it -> (Resource) fhir.newJsonParser().parseResource(it))
                .orElse(null);
    }

    /** Reads the latest versions of these resources, {@code Type/id}, all at once; those that were read stay as they are. */
    void read(Collection<String> names) {
        List<String> unread =
                names.stream().filter(it -> !stored.containsKey(it)).distinct().toList();
        if (!unread.isEmpty()) {
            Map<String, String> found = record.latest(unread);
            unread.forEach(it -> stored.put(it, Optional.ofNullable(found.get(it))));
        }
    }

    /** The resource as it would be put. */
    Resource asPut(Resource resource) {
        return site.adapted(resource);
    }

    /** Puts a resource in place of an earlier version. */
    void put(Resource resource) {
        put.put(resource.fhirType() + "/" + resource.getIdPart(), site.adapted(resource));
    }

    /** Whether the step puts this resource. */
    boolean isPut(Resource resource) {
        return put.containsKey(resource.fhirType() + "/" + resource.getIdPart());
    }

    boolean isEmpty() {
        return put.isEmpty();
    }

    /** What the case is told by, as far as the step names it: {@code Type/id}. */
    List<String> names() {
        return List.copyOf(put.keySet());
    }

    /** The versions that are not on record yet. */
    List<NewVersion> changed() {
        read(put.keySet());
        List<NewVersion> changed = new ArrayList<>();
        for (Resource resource : put.values()) {
            NewVersion version = NewVersion.of(resource);
            if (!Optional.of(version.json()).equals(stored.get(version.name()))) {
                changed.add(version);
            }
        }
        return changed;
    }
}
