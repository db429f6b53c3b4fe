package example.tamponade.fhir.bundle;

import example.tamponade.fhir.terms.Narratives;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Type;
import org.hl7.fhir.utilities.xhtml.XhtmlNode;

/**
 * Observations as a table by time, a column a quantity; what was read once is told in words. Of many rows those are shown that tell how it went: the first and
 * the last, the last of each hour, those at which the state changed and those with the lowest and the highest value of a
 * column, so that nothing between the hours is hidden.
 */
final class ReadingTable {

    private static final int ALL_ROWS = 12;

    private final Set<Instant> changes;
    private final RowTimes times;
    private final Map<String, List<Observation>> columns = new LinkedHashMap<>();
    private final TreeMap<Instant, Map<String, String>> rows = new TreeMap<>();

    ReadingTable(List<Observation> observations, Set<Instant> changes, RowTimes times) {
        this.changes = changes;
        this.times = times;
        observations.stream()
                .sorted(Comparator.comparingInt(it -> Section.place(Profiles.of(it))))
                .forEach(it -> columns.computeIfAbsent(it.getCode().getText(), name -> new ArrayList<>())
                        .add(it));
        columns.forEach((name, values) -> {
            if (values.size() > 1) {
                values.forEach(it -> rows.computeIfAbsent(time(it), time -> new HashMap<>())
                        .merge(name, ReadingWords.of(it, times), (one, other) -> one + "; " + other));
            }
        });
    }

    /** What was read once, the table of what was read again and again, and how much of it is left to the entries. */
    List<XhtmlNode> parts() {
        List<XhtmlNode> parts = new ArrayList<>();
        String once = once();
        if (!once.isEmpty()) {
            parts.add(Narratives.paragraph(once));
        }
        if (!rows.isEmpty()) {
            Set<Instant> shown = shown();
            parts.add(table(shown));
            int left = rows.size() - shown.size();
            if (left > 0) {
                parts.add(Narratives.paragraph(left + " more times between these are in the entries of the section."));
            }
        }
        return parts;
    }

    private String once() {
        RowTimes ofLine = times.ofTable();
        return columns.values().stream()
                .filter(it -> it.size() == 1)
                .map(it -> it.get(0))
                .sorted(Comparator.comparing(ReadingTable::time))
                .map(it -> once(it, ofLine))
                .collect(Collectors.joining(". "));
    }

    private String once(Observation observation, RowTimes ofLine) {
        String value = (ReadingWords.of(observation, times) + " " + ReadingWords.unit(observation)).trim();
        return observation.getCode().getText() + ": " + value + " (" + ofLine.next(time(observation)) + ")";
    }

    private XhtmlNode table(Set<Instant> shown) {
        List<String> head = new ArrayList<>(List.of("Time"));
        List<String> names = new ArrayList<>();
        columns.forEach((name, values) -> {
            if (values.size() > 1) {
                names.add(name);
                head.add(head(name, values));
            }
        });
        RowTimes ofTable = times.ofTable();
        List<List<String>> lines = new ArrayList<>();
        rows.forEach((time, values) -> {
            if (shown.contains(time)) {
                List<String> line = new ArrayList<>(List.of(ofTable.next(time)));
                names.forEach(it -> line.add(values.getOrDefault(it, "")));
                lines.add(line);
            }
        });
        return Narratives.table(head, lines);
    }

    // What was collected over a time was read at its end.
    private static Instant time(Observation observation) {
        return observation.getEffective() instanceof Period period && period.hasEnd()
                ? period.getEnd().toInstant()
                : Chronology.time(observation);
    }

    private static String head(String name, List<Observation> values) {
        return values.stream()
                .map(ReadingWords::unit)
                .filter(it -> !it.isEmpty())
                .findFirst()
                .map(it -> name + ", " + it)
                .orElse(name);
    }

    private Set<Instant> shown() {
        if (rows.size() <= ALL_ROWS) {
            return rows.keySet();
        }
        Set<Instant> shown = new HashSet<>(Set.of(rows.firstKey(), rows.lastKey()));
        Map<Instant, Instant> lastOfHour = new HashMap<>();
        rows.keySet().forEach(it -> lastOfHour.put(it.truncatedTo(ChronoUnit.HOURS), it));
        shown.addAll(lastOfHour.values());
        rows.keySet().stream().filter(changes::contains).forEach(shown::add);
        columns.values().stream().filter(it -> it.size() > 1).forEach(it -> addExtremes(it, shown));
        return shown;
    }

    // A reading that was sought and could not be had is the worst there is.
    private static void addExtremes(List<Observation> column, Set<Instant> shown) {
        Map<Instant, BigDecimal> sizes = new HashMap<>();
        for (Observation observation : column) {
            Type first = observation.hasComponent()
                    ? observation.getComponentFirstRep().getValue()
                    : observation.getValue();
            if (first instanceof Quantity quantity) {
                sizes.put(time(observation), quantity.getValue());
            } else if (first == null) {
                shown.add(time(observation));
            }
        }
        Comparator<Map.Entry<Instant, BigDecimal>> bySize = Map.Entry.comparingByValue();
        sizes.entrySet().stream().min(bySize).map(Map.Entry::getKey).ifPresent(shown::add);
        sizes.entrySet().stream().max(bySize).map(Map.Entry::getKey).ifPresent(shown::add);
    }
}
