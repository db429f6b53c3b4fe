package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.CaseFact;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactKey;
import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.casefile.Flag;
import example.tamponade.core.event.BedsideEvent;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** What the case held up to one of its events, that event included; nothing for an event that was withdrawn. */
final class Known {

    private final List<CaseEntry> latestFirst;

    private Known(List<CaseEntry> latestFirst) {
        this.latestFirst = latestFirst;
    }

    static Known upTo(Recorded event) {
        List<CaseEntry> entries = new ArrayList<>();
        if (event.scope.entry(event.root) != null) {
            for (CaseEntry entry : event.scope.entries()) {
                entries.add(entry);
                if (entry.root().equals(event.root)) {
                    break;
                }
            }
        }
        Collections.reverse(entries);
        return new Known(entries);
    }

    /** The latest value of that kind; null when there is none. */
    @Nullable
    DerivedValue last(FactKind kind) {
        return latestFirst.stream()
                .flatMap(it -> it.facts().stream())
                .filter(it -> it instanceof DerivedValue value && value.kind() == kind)
                .map(DerivedValue.class::cast)
                .findFirst()
                .orElse(null);
    }

    /** The latest event whose data are of that type and fulfil the condition; null when there is none. */
    @Nullable
    <T extends BedsideEvent> CaseEntry last(Class<T> type, Predicate<T> condition) {
        return latestFirst.stream()
                .filter(it -> type.isInstance(it.data()) && condition.test(type.cast(it.data())))
                .findFirst()
                .orElse(null);
    }

    /** The events, in the order they happened. */
    List<CaseEntry> inOrder() {
        List<CaseEntry> entries = new ArrayList<>(latestFirst);
        Collections.reverse(entries);
        return entries;
    }

    /** The warnings that stood then, the gravest first. */
    List<Flag> standingWarnings() {
        Map<FactKey, Flag> flags = new LinkedHashMap<>();
        for (CaseEntry entry : inOrder()) {
            for (CaseFact fact : entry.facts()) {
                if (fact instanceof Flag flag) {
                    flags.put(flag.key(), flag);
                }
            }
        }
        return flags.values().stream()
                .filter(it -> it.end() == null)
                .sorted(Comparator.comparing(Flag::severity).reversed())
                .toList();
    }
}
