package example.tamponade.conformance.fhirpath;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Collections as sets: items that are equal stand once. */
final class Sets {

    private Sets() {}

    static List<Object> distinct(List<?> items) {
        List<Object> distinct = new ArrayList<>();
        Set<String> texts = new HashSet<>();
        for (Object item : items) {
            String text = plain(item);
            if (text != null ? texts.add(text) : distinct.stream().noneMatch(it -> Values.equal(it, item))) {
                distinct.add(item);
            }
        }
        return distinct;
    }

    // What is compared by its text alone, so that long collections stay linear.
    private static @org.jspecify.annotations.Nullable String plain(Object item) {
        boolean number = Values.number(item) != null;
        return number || (item instanceof Node node && !node.children().isEmpty()) ? null : Values.string(item);
    }

    static List<Object> intersect(List<?> some, List<?> others) {
        return distinct(some.stream().filter(it -> contains(others, it)).toList());
    }

    static List<Object> union(List<?> some, List<?> others) {
        return distinct(joined(some, others));
    }

    static List<Object> joined(List<?> some, List<?> others) {
        List<Object> joined = new ArrayList<>(some);
        joined.addAll(others);
        return joined;
    }

    static boolean contains(List<?> items, Object item) {
        return items.stream().anyMatch(it -> Values.equal(it, item));
    }
}
