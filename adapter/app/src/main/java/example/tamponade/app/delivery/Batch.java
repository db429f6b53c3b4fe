package example.tamponade.app.delivery;

import example.tamponade.app.outbox.Held;
import example.tamponade.fhir.conformance.ResourceText;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hl7.fhir.r4.model.Resource;

/** Resources that are sent together, by their names; what they point to is among them or there already. */
final class Batch {

    private final Map<String, Resource> resources = new LinkedHashMap<>();
    private final Map<String, String> digests = new HashMap<>();

    void add(String name, Resource resource) {
        resources.put(name, resource);
        digests.put(name, digest(resource));
    }

    boolean contains(String name) {
        return resources.containsKey(name);
    }

    void removeThoseIn(Map<String, Held> held) {
        resources
                .keySet()
                .removeIf(it -> held.containsKey(it) && held.get(it).digest().equals(digests.get(it)));
    }

    boolean isEmpty() {
        return resources.isEmpty();
    }

    Set<String> names() {
        return resources.keySet();
    }

    List<Resource> resources() {
        return List.copyOf(resources.values());
    }

    /** What the destination holds when it has taken them. */
    Map<String, Held> held(List<String> etags) {
        Map<String, Held> held = new HashMap<>();
        int place = 0;
        for (String name : resources.keySet()) {
            held.put(name, new Held(String.valueOf(digests.get(name)), etags.get(place)));
            place++;
        }
        return held;
    }

    private static String digest(Resource resource) {
        try {
            byte[] json = ResourceText.of(resource).json().getBytes(StandardCharsets.UTF_8);
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(json));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every JDK has SHA-256", e);
        }
    }
}
