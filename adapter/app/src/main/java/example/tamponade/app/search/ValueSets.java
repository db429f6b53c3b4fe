package example.tamponade.app.search;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import tools.jackson.databind.JsonNode;

/** The value sets of our package, as searches name them. */
final class ValueSets {

    private static final ValueSets STANDARD = read();

    private final Map<String, JsonNode> byAddress;

    private ValueSets(Map<String, JsonNode> byAddress) {
        this.byAddress = byAddress;
    }

    static ValueSets standard() {
        return STANDARD;
    }

    private static ValueSets read() {
        return new ValueSets(PackageDefinitions.all("ValueSet").stream()
                .collect(Collectors.toMap(it -> it.required("url").asString(), it -> it)));
    }

    /**
     * The codes of a value set; of a whole code system its system.
     *
     * @param place what it was given for
     * @throws SearchRefusedException when there is no such value set
     */
    List<Criterion.Value> values(String place, String address) {
        JsonNode valueSet = byAddress.get(address);
        if (valueSet == null) {
            throw new SearchRefusedException(
                    place + ": no value set '" + address + "' in the package that the profiles are published in");
        }
        List<Criterion.Value> values = new ArrayList<>();
        for (JsonNode include : valueSet.required("compose").required("include")) {
            String system = include.path("system").asString("");
            if (include.has("concept")) {
                include.path("concept")
                        .forEach(it -> values.add(
                                new Criterion.Value(system, it.required("code").asString())));
            } else if (!system.isEmpty()) {
                values.add(new Criterion.Value(system, null));
            }
            include.path("valueSet").forEach(it -> values.addAll(values(place, it.asString())));
        }
        return values;
    }
}
