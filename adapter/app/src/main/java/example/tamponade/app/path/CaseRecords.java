package example.tamponade.app.path;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import example.tamponade.app.database.Database;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.records.NonconformingException;
import example.tamponade.app.records.RecordParts;
import example.tamponade.core.casefile.CaseChange;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.mapping.PayloadDigests;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hl7.fhir.r4.model.Resource;

/**
 * Brings the record of a case up to the ledger: folds what came since, maps what changed, checks it and stores it. One
 * case is worked on by one thread at a time.
 */
public final class CaseRecords {

    private static final long CASES_IN_MEMORY = 500;

    // So many events share a check and a commit: the validator prepares itself for each check anew.
    private static final int TOGETHER = 50;

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
        NewVersions versions = new NewVersions(record);
        versions.add(new ChangedResources(parts.mapper(), versions).ofTime(change));
        if (!versions.stated().isEmpty()) {
            checkAndStore(caseKey, versions, before.seq());
        }
        return new Open(change.after(), before.digests(), before.seq());
    }

    private OffsetDateTime now() {
        return OffsetDateTime.now(clock);
    }

    private void checkAndStore(String caseKey, NewVersions versions, long seq) {
        NonconformingException.throwUnlessPassed(caseKey, parts.conformance().check(versions.changed()));
        record.store(caseKey, versions.stated(), seq);
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
        for (List<Ledger.Entry> run = run(caseKey, now); !run.isEmpty(); run = run(caseKey, now)) {
            now = advance(caseKey, now, run);
        }
        return now;
    }

    private List<Ledger.Entry> run(String caseKey, Open last) {
        return ledger.entries(caseKey, last.seq(), last.seq() + TOGETHER);
    }

    private Open advance(String caseKey, Open before, List<Ledger.Entry> run) {
        return locks.holding(caseKey, () -> advanceHolding(caseKey, before, run));
    }

    // What another adapter has put on record already is folded without mapping it again.
    private Open advanceHolding(String caseKey, Open before, List<Ledger.Entry> run) {
        long checkpoint = record.checkpoint(caseKey);
        NewVersions versions = new NewVersions(record);
        Open now = before;
        for (Ledger.Entry entry : run) {
            CaseChange change = now.file().apply(entry.event());
            now = folded(now, entry, change);
            if (checkpoint < entry.seq()) {
                versions.add(resources(caseKey, entry.event(), change, now, versions));
            }
        }
        if (checkpoint < now.seq()) {
            checkAndStore(caseKey, versions, now.seq());
        }
        return now;
    }

    private List<Resource> resources(
            String caseKey, EventEnvelope event, CaseChange change, Open now, NewVersions versions) {
        return caseKey.startsWith("facility/")
                ? parts.mapper().facility(idOf(caseKey), received(caseKey, now.seq()), protocol, now.payloadDigests())
                : new ChangedResources(parts.mapper(), versions)
                        .ofEvent(event, change, () -> received(caseKey, now.seq()), now.payloadDigests());
    }

    private static Open folded(Open before, Ledger.Entry entry, CaseChange change) {
        before.digests().put(entry.event().eventId(), entry.digest());
        return new Open(change.after(), before.digests(), entry.seq());
    }

    private List<EventEnvelope> received(String caseKey, long upTo) {
        return ledger.entries(caseKey, 0, upTo).stream()
                .map(Ledger.Entry::event)
                .toList();
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
