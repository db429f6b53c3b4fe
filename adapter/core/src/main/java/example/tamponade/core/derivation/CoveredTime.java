package example.tamponade.core.derivation;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.pcollections.TreePMap;

/**
 * The time that collections of urine cover. What is collected over a time that is covered already counts once: a collection
 * counts by the share of its time that no collection before it covers.
 *
 * <p>Source: arithmetic; even flow within a collection is assumed.
 *
 * @param spans begin and end of each unbroken time, in order
 */
public record CoveredTime(TreePMap<Instant, Instant> spans) {

    /** No time. */
    public static final CoveredTime NONE = new CoveredTime(TreePMap.empty());

    /**
     * The parts of a collection that lie in time that is not covered, each with its share of the volume; the collection
     * itself when nothing of it is covered.
     */
    public List<UrineCollection> uncovered(UrineCollection collection) {
        if (collection.length().isZero()) {
            return List.of(collection);
        }
        List<UrineCollection> parts = new ArrayList<>();
        Instant from = collection.from();
        for (Map.Entry<Instant, Instant> span : touching(collection).entrySet()) {
            if (span.getKey().isAfter(from)) {
                parts.add(collection.part(from, span.getKey()));
            }
            from = span.getValue().isAfter(from) ? span.getValue() : from;
        }
        if (from.isBefore(collection.to())) {
            parts.add(collection.part(from, collection.to()));
        }
        return parts;
    }

    /** Whether some of the collection's time is covered. */
    public boolean overlaps(UrineCollection collection) {
        Duration free =
                uncovered(collection).stream().map(UrineCollection::length).reduce(Duration.ZERO, Duration::plus);
        return free.compareTo(collection.length()) < 0;
    }

    /** This time and that of the collection. */
    public CoveredTime with(UrineCollection collection) {
        TreePMap<Instant, Instant> joined = touching(collection);
        Instant from = joined.isEmpty() || collection.from().isBefore(joined.firstKey())
                ? collection.from()
                : joined.firstKey();
        Instant last = joined.isEmpty() ? collection.to() : joined.lastEntry().getValue();
        Instant to = last.isAfter(collection.to()) ? last : collection.to();
        return new CoveredTime(spans.minusAll(joined.keySet()).plus(from, to));
    }

    private TreePMap<Instant, Instant> touching(UrineCollection collection) {
        Map.Entry<Instant, Instant> before = spans.floorEntry(collection.from());
        boolean reachesIn = before != null && !before.getValue().isBefore(collection.from());
        Instant first = reachesIn ? before.getKey() : collection.from();
        return spans.subMap(first, true, collection.to(), true);
    }
}
