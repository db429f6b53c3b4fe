package example.tamponade.app.message;

import example.tamponade.app.intake.EventProperties;
import example.tamponade.app.intake.ReasonCode;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Keeps count of values that belong to lists of objects, as the numbers of a mother in several registers. The sub-id
 * (OBX-4) says which object a value belongs to; each property must come for the same objects in the same order.
 */
final class ObjectLists {

    private final Map<String, Map<String, List<String>>> subIds = new LinkedHashMap<>();
    private final Map<String, MessagePlace> places = new LinkedHashMap<>();

    /** Counts a value. */
    void add(ObservationCodes.Property property, String subId, MessagePlace place) {
        String list = EventProperties.list(property.type(), property.path());
        if (list != null && !list.equals(property.path())) {
            subIds.computeIfAbsent(list, it -> new LinkedHashMap<>())
                    .computeIfAbsent(property.path(), it -> new ArrayList<>())
                    .add(subId);
            places.put(list, place);
        }
    }

    void refuseUneven(EventStatement event) {
        subIds.forEach((list, ofProperties) -> {
            if (new HashSet<>(ofProperties.values()).size() > 1) {
                event.refuse(
                        ReasonCode.INVALID_VALUE,
                        "the sub-ids do not tell which values belong together",
                        "give what belongs to one object the same sub-id in OBX-4, and send each of its properties",
                        places.getOrDefault(list, MessagePlace.HEADER));
            }
        });
    }
}
