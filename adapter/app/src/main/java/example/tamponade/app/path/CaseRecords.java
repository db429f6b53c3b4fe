package example.tamponade.app.path;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import example.tamponade.app.database.Database;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.records.NonconformingException;
import example.tamponade.app.records.RecordParts;
import example.tamponade.core.casefile.CaseChange;
import example.tamponade.core.casefile.CaseFact;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactKey;
import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.casefile.Flag;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.mapping.PayloadDigests;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Resource;

/**
 * Brings the record of a case up to the ledger: folds what came since, maps what changed, checks it and stores it. One
 * case is worked on by one thread at a time.
 */
public final class CaseRecords {

    private static final long CASES_IN_MEMORY = 500;

    private final CareProtocol protocol;
    private final Ledger ledger;
    private final ResourceRecord record;
    private final RecordParts parts;
    private final CaseLocks locks;
    private final Clock clock;
    private final Cache<String, Open> open =
            Caffeine.newBuilder().maximumSize(CASES_IN_MEMORY).build();

    /** Works between the ledger and the record of that database. */
    public CaseRecords(
            CareProtocol protocol,
            Database database,
            Ledger ledger,
            ResourceRecord record,
            RecordParts parts,
            Clock clock) {
        this.protocol = protocol;
        this.ledger = ledger;
        this.record = record;
        this.parts = parts;
        this.locks = new CaseLocks(database);
        this.clock = clock;
    }

    // A case in memory: its file and how far in the ledger it has come.
    private record Open(CaseFile file, Map<UUID, String> digests, long seq) {

        PayloadDigests payloadDigests() {
            return eventId -> {
                String digest = digests.get(eventId);
                if (digest == null) {
                    throw new IllegalArgumentException("no event " + eventId + " in this case");
                }
                return digest;
            };
        }
    }

    /** Puts on record whatever the ledger holds of the case beyond it. */
    public void bringUpToDate(String caseKey) {
        open.asMap().compute(caseKey, (key, before) -> advance(key, before == null ? load(key) : before));
    }

    /**
     * Puts on record the warnings that time alone has brought to an open case by now, as a deadline that passed. Asked
     * before a case is served.
     */
    public void letTimePass(String caseKey) {
        bringUpToDate(caseKey);
        open.asMap().computeIfPresent(caseKey, (key, before) -> locks.holding(key, () -> letTimePass(key, before)));
    }

    private Open letTimePass(String caseKey, Open before) {
        boolean nothingDue =
                before.file().closedAt() != null || before.file().entries().isEmpty();
        // An adapter that took a further event has let time pass as well.
        if (nothingDue || record.checkpoint(caseKey) != before.seq()) {
            return before;
        }
        CaseChange change = before.file().advanceTo(now());
        List<Resource> resources = new ArrayList<>();
        change.facts().stream().filter(Flag.class::isInstance).forEach(it -> resources.add(ofFact(change.after(), it)));
        change.gone().forEach(it -> resources.addAll(gone(it)));
        if (!resources.isEmpty()) {
            checkAndStore(caseKey, RecordParts.distinct(resources), before.seq());
        }
        return new Open(change.after(), before.digests(), before.seq());
    }

    private OffsetDateTime now() {
        return OffsetDateTime.now(clock);
    }

    private void checkAndStore(String caseKey, List<Resource> resources, long seq) {
        NonconformingException.throwUnlessPassed(caseKey, parts.conformance().check(resources));
        record.store(caseKey, resources, seq);
    }

    /** The case file up to the ledger's end; empty of events when there is no such case. */
    public CaseFile file(String caseKey) {
        bringUpToDate(caseKey);
        Open now = open.getIfPresent(caseKey);
        return now == null ? load(caseKey).file() : now.file();
    }

    // What is on record already is folded without mapping it again.
    private Open load(String caseKey) {
        long checkpoint = record.checkpoint(caseKey);
        Open loaded = new Open(CaseFile.empty(idOf(caseKey), protocol), new HashMap<>(), 0);
        for (Ledger.Entry entry : ledger.entries(caseKey, 0, checkpoint)) {
            loaded = folded(loaded, entry, loaded.file().apply(entry.event()));
        }
        // Warnings that time brought before a restart are on record; the file must know them to take them back.
        return loaded.seq() == 0
                ? loaded
                : new Open(loaded.file().advanceTo(now()).after(), loaded.digests(), loaded.seq());
    }

    private Open advance(String caseKey, Open before) {
        Open now = before;
        for (Ledger.Entry entry : ledger.entries(caseKey, before.seq(), Long.MAX_VALUE)) {
            Open last = now;
            now = locks.holding(caseKey, () -> advance(caseKey, last, entry));
        }
        return now;
    }

    // What another adapter has put on record already is folded without mapping it again.
    private Open advance(String caseKey, Open before, Ledger.Entry entry) {
        CaseChange change = before.file().apply(entry.event());
        Open now = folded(before, entry, change);
        if (record.checkpoint(caseKey) < entry.seq()) {
            List<Resource> resources = caseKey.startsWith("facility/")
                    ? ofFacility(caseKey, now)
                    : ofCase(caseKey, entry.event(), change, now);
            checkAndStore(caseKey, resources, entry.seq());
        }
        return now;
    }

    private static Open folded(Open before, Ledger.Entry entry, CaseChange change) {
        before.digests().put(entry.event().eventId(), entry.digest());
        return new Open(change.after(), before.digests(), entry.seq());
    }

    private List<Resource> ofCase(String caseKey, EventEnvelope event, CaseChange change, Open now) {
        CaseFile file = change.after();
        PayloadDigests digests = now.payloadDigests();
        List<Resource> resources = new ArrayList<>(parts.mapper().ofCase(file));
        change.entries().forEach(it -> resources.addAll(parts.mapper().ofEvent(file, it, digests)));
        change.withdrawn().forEach(it -> resources.addAll(parts.mapper().ofWithdrawn(file, it, digests)));
        change.facts().stream().filter(it -> !stillRunning(file, it)).forEach(it -> resources.add(ofFact(file, it)));
        change.gone().forEach(it -> resources.addAll(gone(it)));
        if (event.corrects() != null || event.retracts() != null) {
            resources.addAll(parts.mapper().ofReplaced(file, received(caseKey, now.seq()), digests));
        }
        return RecordParts.distinct(resources);
    }

    // How long a balloon has been in place so far is told when asked; it goes on record when it has been taken out.
    private static boolean stillRunning(CaseFile file, CaseFact fact) {
        return fact instanceof DerivedValue value
                && value.kind() == FactKind.TIME_IN_SITU
                && file.tamponades().stream()
                        .anyMatch(it -> it.inPlace()
                                && it.insertion().equals(value.key().anchor()));
    }

    private List<EventEnvelope> received(String caseKey, long upTo) {
        return ledger.entries(caseKey, 0, upTo).stream()
                .map(Ledger.Entry::event)
                .toList();
    }

    // A derived value that is on record already and comes out otherwise now is amended; one that comes out as before is
    // left as it is.
    private Resource ofFact(CaseFile file, CaseFact fact) {
        Resource fresh = parts.mapper().ofFact(file, fact, false);
        Optional<Resource> known = fact instanceof DerivedValue
                ? record.current("Observation", parts.mapper().idOf(fact.key()))
                : Optional.empty();
        if (known.isEmpty()) {
            return fresh;
        }
        Observation before = (Observation) known.get();
        before.getMeta().setVersionId(null);
        Observation asFinal = before.copy();
        asFinal.setStatus(Observation.ObservationStatus.FINAL);
        return asFinal.equalsDeep(fresh) ? before : parts.mapper().ofFact(file, fact, true);
    }

    // A fact that holds no more stays on record as entered in error.
    private List<Resource> gone(FactKey key) {
        List<Resource> gone = new ArrayList<>();
        for (String type : List.of("Observation", "Flag", "DetectedIssue")) {
            record.current(type, parts.mapper().idOf(key))
                    .map(it -> parts.mapper().enteredInError(it))
                    .ifPresent(gone::add);
        }
        gone.forEach(it -> it.getMeta().setVersionId(null));
        return gone;
    }

    private List<Resource> ofFacility(String caseKey, Open now) {
        return parts.mapper().facility(idOf(caseKey), received(caseKey, now.seq()), protocol, now.payloadDigests());
    }

    private static String idOf(String caseKey) {
        return caseKey.substring(caseKey.indexOf('/') + 1);
    }

    /** Digests of a case's payloads, for mapping it as a whole. */
    public PayloadDigests digests(String caseKey) {
        Map<UUID, String> digests = new HashMap<>();
        ledger.entries(caseKey, 0, Long.MAX_VALUE)
                .forEach(it -> digests.put(it.event().eventId(), it.digest()));
        return new Open(CaseFile.empty(idOf(caseKey), protocol), digests, 0).payloadDigests();
    }
}
