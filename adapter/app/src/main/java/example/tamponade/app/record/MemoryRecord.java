package example.tamponade.app.record;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.hl7.fhir.r4.model.Resource;

/** A record that lasts as long as a command runs. */
public final class MemoryRecord implements VersionStore {

    private final Map<String, NewVersion> versions = new HashMap<>();
    private final Map<String, Set<String>> names = new HashMap<>();
    private final Map<String, Checkpoint> checkpoints = new HashMap<>();
    private final Map<String, Map<Long, SetAside>> setAside = new HashMap<>();

    @Override
    public Map<String, String> latest(Collection<String> wanted) {
        Map<String, String> found = new HashMap<>();
        for (String name : wanted) {
            NewVersion version = versions.get(name);
            if (version != null) {
                found.put(name, version.json());
            }
        }
        return found;
    }

    @Override
    public List<Resource> ofCase(String caseKey) {
        return names.getOrDefault(caseKey, Set.of()).stream()
                .map(it -> Objects.requireNonNull(versions.get(it)).resource())
                .toList();
    }

    @Override
    public Checkpoint checkpoint(String caseKey) {
        return checkpoints.getOrDefault(caseKey, Checkpoint.NOTHING);
    }

    @Override
    public void store(String caseKey, Collection<String> stated, List<NewVersion> changed, Checkpoint upTo) {
        names.computeIfAbsent(caseKey, key -> new TreeSet<>()).addAll(stated);
        changed.forEach(it -> versions.put(it.name(), it));
        checkpoints.put(caseKey, upTo);
    }

    @Override
    public List<SetAside> setAside(String caseKey) {
        return List.copyOf(setAside.getOrDefault(caseKey, Map.of()).values());
    }

    @Override
    public void setAside(String caseKey, SetAside event, String reason) {
        setAside.computeIfAbsent(caseKey, key -> new TreeMap<>()).put(event.seq(), event);
    }
}
