package example.tamponade.conformance.rules;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** What one element of a profile may be: the rules of its line in the snapshot. */
public final class Rules {

    private final Profiles profiles;
    private final Head head;
    private final List<TypeRule> types;
    private final List<Invariant> invariants;
    private final int[] childPlaces;
    private final @Nullable String like;
    private final JsonNode sliceNodes;
    private Rules @Nullable [] children;
    private Slice @Nullable [] slices;
    private @Nullable Map<String, Property> properties;

    Rules(Profiles profiles, JsonNode node, Head head, List<TypeRule> types, List<Invariant> invariants) {
        this.profiles = profiles;
        this.head = head;
        this.types = types;
        this.invariants = invariants;
        this.childPlaces = places(node.path("children"));
        this.like = node.has("like") ? node.get("like").stringValue() : null;
        this.sliceNodes = node.path("slices");
    }

    /**
     * What stands in the line itself.
     *
     * @param path the path of the element, {@code Observation.value[x]}
     * @param name its name, of a choice without {@code [x]}
     * @param choice whether it is a choice of types
     * @param min how many there must be
     * @param max how many there may be; less than 0 for any number
     * @param list whether JSON has it as an array
     * @param slice the name of the slice; null when it is none
     * @param fixed what it must be; null when that is open
     * @param pattern what it must contain; null when that is open
     * @param binding where its code comes from; null when that is open
     * @param maxLength the number of characters that it may have; less than 0 for any
     * @param least the smallest number
     * @param most the largest number
     * @param closed whether an element that fits no slice is an error
     */
    public record Head(
            String path,
            String name,
            boolean choice,
            int min,
            int max,
            boolean list,
            @Nullable String slice,
            @Nullable JsonNode fixed,
            @Nullable JsonNode pattern,
            @Nullable Binding binding,
            int maxLength,
            @Nullable BigDecimal least,
            @Nullable BigDecimal most,
            boolean closed) {}

    private static int[] places(JsonNode list) {
        int[] places = new int[list.size()];
        for (int i = 0; i < places.length; i++) {
            places[i] = list.get(i).intValue();
        }
        return places;
    }

    public Head head() {
        return head;
    }

    public List<TypeRule> types() {
        return types;
    }

    public List<Invariant> invariants() {
        return invariants;
    }

    /** The element whose content this one has, as a link in a bundle's entry; null when it has its own. */
    public @Nullable String like() {
        return like;
    }

    /** The rules of what stands in the element; empty when its type alone says that. */
    public Rules[] children() {
        Rules[] made = children;
        if (made == null) {
            made = new Rules[childPlaces.length];
            for (int i = 0; i < made.length; i++) {
                made[i] = profiles.rules(childPlaces[i]);
            }
            children = made;
        }
        return made;
    }

    public Slice[] slices() {
        Slice[] made = slices;
        if (made == null) {
            made = new Slice[sliceNodes.size()];
            for (int i = 0; i < made.length; i++) {
                made[i] = profiles.slice(sliceNodes.get(i));
            }
            slices = made;
        }
        return made;
    }

    /** What a JSON property in the element is; null when there is none of that name. */
    public @Nullable Property property(String json) {
        Map<String, Property> made = properties;
        if (made == null) {
            made = Property.of(this);
            properties = made;
        }
        return made.get(json);
    }
}
