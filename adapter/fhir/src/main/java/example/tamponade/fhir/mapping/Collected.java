package example.tamponade.fhir.mapping;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Resource;

/** Resources in the order they were first collected, each id once. */
final class Collected {

    private final Map<String, Resource> byId = new LinkedHashMap<>();

    void add(Collection<Resource> resources) {
        resources.forEach(this::add);
    }

    void add(Resource resource) {
        byId.putIfAbsent(resource.getIdPart(), resource);
    }

    List<Resource> all() {
        return List.copyOf(byId.values());
    }
}
