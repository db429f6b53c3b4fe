package example.tamponade.app.outbox;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.function.BiConsumer;
import java.util.stream.Collectors;

/** Names of resources, {@code Type/id}, as a database is asked for them. */
public final class ResourceNames {

    // Databases bound the number of parameters of a statement.
    private static final int TOGETHER = 500;

    private ResourceNames() {}

    /** Hands over the ids of each type, of many some hundred at a time. */
    public static void byType(Collection<String> names, BiConsumer<String, List<String>> asked) {
        Map<String, List<String>> idsByType = names.stream()
                .collect(Collectors.groupingBy(
                        it -> it.substring(0, it.indexOf('/')),
                        Collectors.mapping(it -> it.substring(it.indexOf('/') + 1), Collectors.toList())));
        idsByType.forEach((type, ids) -> {
            for (int from = 0; from < ids.size(); from += TOGETHER) {
                asked.accept(type, ids.subList(from, Math.min(ids.size(), from + TOGETHER)));
            }
        });
    }
}
