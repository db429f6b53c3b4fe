package example.tamponade.core.casefile;

import example.tamponade.core.derivation.TimeInSitu;
import example.tamponade.core.event.CaseId;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.pcollections.HashTreePMap;
import org.pcollections.PMap;
import org.pcollections.TreePMap;

/**
 * Everything known of one case: the events that stand, in the order they happened, and what was derived from them.
 *
 * <p>A value: {@link #apply} and {@link #advanceTo} give a new case file and leave this one as it is. The same events give
 * the same case file in whatever order they come. An event at the end costs the same in a long case as in a short one; an
 * event in the middle refolds what follows it.
 */
public final class CaseFile {

    private final @Nullable CaseId caseId;
    private final CareProtocol protocol;
    private final PMap<UUID, EventChain> chains;
    private final PMap<UUID, UUID> roots;
    private final TreePMap<EventOrder, Folded> line;
    private final @Nullable OffsetDateTime asOf;

    // An entry with the state after it: every event is a checkpoint, and unchanged parts are shared.
    private record Folded(CaseEntry entry, CaseState after) {}

    private CaseFile(
            @Nullable CaseId caseId,
            CareProtocol protocol,
            PMap<UUID, EventChain> chains,
            PMap<UUID, UUID> roots,
            TreePMap<EventOrder, Folded> line,
            @Nullable OffsetDateTime asOf) {
        this.caseId = caseId;
        this.protocol = protocol;
        this.chains = chains;
        this.roots = roots;
        this.line = line;
        this.asOf = asOf;
    }

    /**
     * The case file before its first event.
     *
     * @param caseId the case; null for the events of a facility that belong to none
     */
    public static CaseFile empty(@Nullable CaseId caseId, CareProtocol protocol) {
        return new CaseFile(caseId, protocol, HashTreePMap.empty(), HashTreePMap.empty(), TreePMap.empty(), null);
    }

    /** The case file after all these events. */
    public static CaseFile of(@Nullable CaseId caseId, CareProtocol protocol, Collection<EventEnvelope> events) {
        CaseFile file = empty(caseId, protocol);
        for (EventEnvelope event : events) {
            file = file.apply(event).after();
        }
        return file;
    }

    /** The case; it is not asked of the events of a facility that belong to none. */
    public CaseId caseId() {
        return Objects.requireNonNull(caseId, "these events belong to no case");
    }

    /** Whether these are the events of a facility that belong to no case. */
    public boolean isOfFacility() {
        return caseId == null;
    }

    /** The care protocol that the facts were derived by. */
    public CareProtocol protocol() {
        return protocol;
    }

    /**
     * Takes in one event. The caller sees to it that an event id comes once, with one content.
     *
     * @return the new case file and what changed
     */
    public CaseChange apply(EventEnvelope event) {
        UUID target = event.target();
        UUID root = target == null ? event.eventId() : roots.getOrDefault(target, target);
        EventChain before = chains.getOrDefault(root, EventChain.empty(root));
        EventChain after = before.with(event);
        EventChain early = root.equals(event.eventId()) ? null : chains.get(event.eventId());
        PMap<UUID, UUID> newRoots = root.equals(event.eventId()) ? roots : roots.plus(event.eventId(), root);
        PMap<UUID, EventChain> newChains = chains.plus(root, after);
        TreePMap<EventOrder, Folded> newLine = line;
        EventOrder from = null;
        if (early != null) {
            // Corrections of this event came before it; they belong to the chain that it belongs to.
            after = after.merged(early);
            newChains = newChains.minus(event.eventId()).plus(root, after);
            for (UUID id : early.ids()) {
                newRoots = newRoots.plus(id, root);
            }
            from = place(early.standing());
            newLine = from == null ? newLine : newLine.minus(from);
        }
        return refold(newChains, newRoots, newLine, before, after, from);
    }

    private CaseChange refold(
            PMap<UUID, EventChain> newChains,
            PMap<UUID, UUID> newRoots,
            TreePMap<EventOrder, Folded> cleared,
            EventChain before,
            EventChain after,
            @Nullable EventOrder earlier) {
        EventEnvelope standing = after.standing();
        EventOrder oldPlace = place(before.standing());
        EventOrder newPlace = place(standing);
        TreePMap<EventOrder, Folded> events = oldPlace == null ? cleared : cleared.minus(oldPlace);
        EventOrder from = first(first(oldPlace, newPlace), earlier);
        if (from == null) {
            return new CaseChange(
                    with(newChains, newRoots, line), List.of(), withdrawn(before, after), List.of(), List.of());
        }
        if (standing != null && newPlace != null) {
            CaseEntry unfolded = new CaseEntry(after.root(), standing, List.of(), null, null);
            events = events.plus(newPlace, new Folded(unfolded, CaseState.EMPTY));
        }
        CaseFile file = with(newChains, newRoots, foldFrom(from, events, newChains));
        Set<CaseEntry> old = new HashSet<>(entriesFrom(from));
        List<CaseEntry> changed =
                file.entriesFrom(from).stream().filter(it -> !old.contains(it)).toList();
        // A fact of this instant may stand at an earlier event of it.
        EventOrder begin = from.beginOfInstant();
        return difference(
                factsFrom(begin), file.factsFrom(begin), after.root(), file, changed, withdrawn(before, after));
    }

    private static List<Withdrawn> withdrawn(EventChain before, EventChain after) {
        Withdrawn withdrawn = after.withdrawn();
        return withdrawn == null || withdrawn.equals(before.withdrawn()) ? List.of() : List.of(withdrawn);
    }

    private List<CaseEntry> entriesFrom(EventOrder from) {
        return line.tailMap(from, true).values().stream().map(Folded::entry).toList();
    }

    private TreePMap<EventOrder, Folded> foldFrom(
            EventOrder from, TreePMap<EventOrder, Folded> events, PMap<UUID, EventChain> newChains) {
        Map.Entry<EventOrder, Folded> previous = events.lowerEntry(from);
        CaseState state =
                previous == null ? CaseState.EMPTY : previous.getValue().after();
        TreePMap<EventOrder, Folded> folded = events;
        for (Map.Entry<EventOrder, Folded> place : events.tailMap(from, true).entrySet()) {
            TreePMap<EventOrder, Folded> soFar = folded;
            Folded next = fold(place.getValue().entry(), state, it -> recorded(it, newChains, soFar, place.getKey()));
            folded = folded.plus(place.getKey(), next);
            state = next.after();
        }
        return folded;
    }

    // When a reading was recorded, or a fact could be known, of the events before a place.
    private static OffsetDateTime recorded(
            FactInput input, PMap<UUID, EventChain> chains, TreePMap<EventOrder, Folded> line, EventOrder before) {
        if (input instanceof FactInput.OfEvent reading) {
            return standing(chains, reading.event()).recordedAt();
        }
        FactKey key = ((FactInput.OfFact) input).key();
        EventOrder end = EventOrder.of(standing(chains, key.anchor())).endOfInstant();
        // A fact of an instant stands at the last of its events that tells of it.
        Map.Entry<EventOrder, Folded> place = line.lowerEntry(end.compareTo(before) < 0 ? end : before);
        while (place != null) {
            DerivedValue fact = place.getValue().entry().value(key);
            if (fact != null) {
                return fact.issued();
            }
            place = line.lowerEntry(place.getKey());
        }
        throw new IllegalStateException("no fact " + key + " before " + before);
    }

    private static EventEnvelope standing(PMap<UUID, EventChain> chains, UUID root) {
        return Objects.requireNonNull(Objects.requireNonNull(chains.get(root)).standing());
    }

    private Folded fold(CaseEntry entry, CaseState before, Function<FactInput, OffsetDateTime> earlier) {
        FoldStep step = CaseFold.fold(entry, before, protocol, earlier);
        CaseState after = step.after();
        CaseEntry folded = new CaseEntry(
                entry.root(),
                entry.event(),
                step.facts(),
                tamponadeOf(before, after),
                eventOf(Milestone.RECOGNISED, after));
        return new Folded(folded, after);
    }

    private static @Nullable UUID tamponadeOf(CaseState before, CaseState after) {
        if (after.tamponades().isEmpty()) {
            return null;
        }
        Tamponade last = after.tamponades().get(after.tamponades().size() - 1);
        boolean endedHere = !last.inPlace()
                && before.tamponades().size() == after.tamponades().size()
                && before.tamponades().get(before.tamponades().size() - 1).inPlace();
        return last.inPlace() || endedHere ? last.insertion() : null;
    }

    /**
     * Lets time pass: what time alone brings is derived up to that time.
     *
     * @param time up to when; nothing after it is assumed
     */
    public CaseChange advanceTo(OffsetDateTime time) {
        CaseFile file = new CaseFile(caseId, protocol, chains, roots, line, time);
        return difference(ahead(), file.ahead(), null, file, List.of(), List.of());
    }

    /** Up to when time has passed; null before it has. */
    public @Nullable OffsetDateTime asOf() {
        return asOf;
    }

    /** When time alone brings something next; null when nothing is awaited. */
    public @Nullable OffsetDateTime awaits() {
        return state().timers().values().stream()
                .map(Timer::due)
                .filter(it -> asOf == null || !it.isBefore(asOf))
                .min(Comparator.comparing(OffsetDateTime::toInstant))
                .orElse(null);
    }

    /** Every fact that holds, in the order of the events; a flag in its latest form. */
    public List<CaseFact> facts() {
        Map<FactKey, CaseFact> latest = new LinkedHashMap<>();
        line.values().forEach(it -> it.entry().facts().forEach(fact -> latest.put(fact.key(), fact)));
        ahead().forEach(fact -> latest.put(fact.key(), fact));
        return List.copyOf(latest.values());
    }

    /** Every event that stands, in the order they happened. */
    public List<CaseEntry> entries() {
        return line.values().stream().map(Folded::entry).toList();
    }

    /** What stands of the event that was first recorded under that id; null when nothing does. */
    public @Nullable CaseEntry entry(UUID root) {
        EventChain chain = chains.get(root);
        EventOrder place = chain == null ? null : place(chain.standing());
        Folded folded = place == null ? null : line.get(place);
        return folded == null ? null : folded.entry();
    }

    /** Every event that was withdrawn. */
    public List<Withdrawn> withdrawn() {
        List<Withdrawn> withdrawn = new ArrayList<>();
        for (EventChain chain : chains.values()) {
            Withdrawn one = chain.withdrawn();
            if (one != null) {
                withdrawn.add(one);
            }
        }
        withdrawn.sort(Comparator.comparing(it -> EventOrder.of(it.event())));
        return withdrawn;
    }

    /** Each insertion of a device, in order. */
    public List<Tamponade> tamponades() {
        return List.copyOf(state().tamponades());
    }

    /** The event that opened the case; null when none did. */
    public @Nullable UUID opening() {
        return eventOf(Milestone.OPENED, state());
    }

    /** When the case was closed; null while it is open. */
    public @Nullable OffsetDateTime closedAt() {
        return state().progress().closedAt();
    }

    /** Whether the case is closed and nobody was seen to look after her since; time brings nothing more. */
    public boolean isOver() {
        Progress progress = state().progress();
        return progress.closedAt() != null && progress.unwatchedSince() != null;
    }

    private CaseState state() {
        return line.isEmpty() ? CaseState.EMPTY : line.lastEntry().getValue().after();
    }

    private static @Nullable UUID eventOf(Milestone milestone, CaseState state) {
        Progress.Mark mark = state.progress().mark(milestone);
        return mark == null ? null : mark.event();
    }

    private List<CaseFact> ahead() {
        List<CaseFact> facts = new ArrayList<>();
        if (caseId != null && opening() == null && !line.isEmpty()) {
            facts.add(notOpened(line.firstEntry().getValue().entry()));
        }
        for (Tamponade tamponade : state().tamponades()) {
            boolean watched = state().progress().unwatchedSince() == null && tamponade.inPlace();
            if (asOf != null && watched && !asOf.isBefore(tamponade.insertedAt())) {
                facts.add(timeInSitu(tamponade, asOf));
            }
        }
        if (asOf != null) {
            facts.addAll(
                    Timers.passed(state().openFlags(), state().timers(), asOf).facts());
        }
        return facts;
    }

    private static RecordIssue notOpened(CaseEntry first) {
        return new RecordIssue(
                FactKey.of(IssueKind.CASE_NOT_OPENED, first.root()),
                IssueKind.CASE_NOT_OPENED,
                Severity.MODERATE,
                first.event().occurredAt(),
                "no event opened this case; send its case-opened event",
                List.of(new FactInput.OfEvent(first.root(), Reading.EVENT)));
    }

    private static DerivedValue timeInSitu(Tamponade tamponade, OffsetDateTime asOf) {
        return new DerivedValue(
                FactKey.of(FactKind.TIME_IN_SITU, tamponade.insertion()),
                FactKind.TIME_IN_SITU,
                asOf,
                asOf,
                TimeInSitu.between(tamponade.insertedAt().toInstant(), asOf.toInstant()),
                List.of(new FactInput.OfEvent(tamponade.insertion(), Reading.TAMPONADE)),
                null,
                tamponade.insertion());
    }

    private CaseFile with(
            PMap<UUID, EventChain> newChains, PMap<UUID, UUID> newRoots, TreePMap<EventOrder, Folded> newLine) {
        return new CaseFile(caseId, protocol, newChains, newRoots, newLine, asOf);
    }

    private List<CaseFact> factsFrom(EventOrder from) {
        List<CaseFact> facts = new ArrayList<>();
        Map.Entry<EventOrder, Folded> previous = line.lowerEntry(from);
        if (previous != null) {
            // A flag that stands at this place may be ended behind it; without that end it stands on.
            facts.addAll(previous.getValue().after().openFlags().values());
        }
        line.tailMap(from, true).values().forEach(it -> facts.addAll(it.entry().facts()));
        facts.addAll(ahead());
        return facts;
    }

    // What hangs on the event that came or was corrected counts as changed even if it says the same: it names the
    // event.
    private static CaseChange difference(
            List<CaseFact> before,
            List<CaseFact> after,
            @Nullable UUID touched,
            CaseFile file,
            List<CaseEntry> entries,
            List<Withdrawn> withdrawn) {
        Map<FactKey, CaseFact> old = latest(before);
        Map<FactKey, CaseFact> now = latest(after);
        List<CaseFact> changed = now.values().stream()
                .filter(it -> !it.equals(old.get(it.key())) || it.key().anchor().equals(touched))
                .toList();
        List<FactKey> gone =
                old.keySet().stream().filter(it -> !now.containsKey(it)).toList();
        return new CaseChange(file, entries, withdrawn, changed, gone);
    }

    private static Map<FactKey, CaseFact> latest(List<CaseFact> facts) {
        Map<FactKey, CaseFact> latest = new LinkedHashMap<>();
        facts.forEach(it -> latest.put(it.key(), it));
        return latest;
    }

    private static @Nullable EventOrder place(@Nullable EventEnvelope event) {
        return event == null ? null : EventOrder.of(event);
    }

    private static @Nullable EventOrder first(@Nullable EventOrder one, @Nullable EventOrder other) {
        if (one == null || other == null) {
            return one == null ? other : one;
        }
        return one.compareTo(other) <= 0 ? one : other;
    }
}
