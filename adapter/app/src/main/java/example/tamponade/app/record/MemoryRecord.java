package example.tamponade.app.record;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.fhir.conformance.ResourceText;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.hl7.fhir.r4.model.Resource;

/** A record that lasts as long as a command runs. */
public final class MemoryRecord implements VersionStore {

    private final Map<String, String> versions = new HashMap<>();
    private final Map<String, Set<String>> names = new HashMap<>();
    private final Map<String, Long> checkpoints = new HashMap<>();

    @Override
    public Map<String, String> latest(Collection<String> wanted) {
        Map<String, String> found = new HashMap<>();
        for (String name : wanted) {
            String version = versions.get(name);
            if (version != null) {
                found.put(name, version);
            }
        }
        return found;
    }

    @Override
    public List<Resource> ofCase(String caseKey) {
        return names.getOrDefault(caseKey, Set.of()).stream()
                .map(it -> (Resource) FhirContext.forR4Cached().newJsonParser().parseResource(versions.get(it)))
                .toList();
    }

    @Override
    public long checkpoint(String caseKey) {
        return checkpoints.getOrDefault(caseKey, 0L);
    }

    @Override
    public void store(String caseKey, Collection<String> stated, List<ResourceText> changed, long seq) {
        names.computeIfAbsent(caseKey, key -> new TreeSet<>()).addAll(stated);
        changed.forEach(it -> versions.put(it.name(), it.json()));
        checkpoints.put(caseKey, seq);
    }
}
