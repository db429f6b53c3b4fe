package example.tamponade.app.projection;

import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.record.SetAside;
import example.tamponade.core.casefile.CaseChange;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.mapping.PayloadDigests;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.pcollections.HashTreePMap;
import org.pcollections.PMap;

/**
 * A case, or a facility's own events, as far as they were folded.
 *
 * @param key what they are filed under
 * @param file the case file
 * @param received every event so far by its id
 * @param setAside its events that are set aside, by their place in the ledger; they are not folded
 * @param seq the last event's place in the ledger; 0 before the first
 */
record ProjectedCase(
        String key, CaseFile file, PMap<UUID, Ledger.Entry> received, PMap<Long, SetAside> setAside, long seq) {

    static ProjectedCase empty(String key, CareProtocol protocol) {
        return new ProjectedCase(
                key, CaseFile.empty(CaseKey.caseId(key), protocol), HashTreePMap.empty(), HashTreePMap.empty(), 0);
    }

    boolean isOfFacility() {
        return CaseKey.caseId(key) == null;
    }

    /** With an event, which may be one that was set aside. */
    ProjectedCase with(Ledger.Entry entry, CaseChange change) {
        return new ProjectedCase(
                key,
                change.after(),
                received.plus(entry.event().eventId(), entry),
                setAside.minus(entry.seq()),
                Math.max(seq, entry.seq()));
    }

    ProjectedCase with(CaseChange change) {
        return new ProjectedCase(key, change.after(), received, setAside, seq);
    }

    /** Knowing up to when the warnings that time alone brings are on record. */
    ProjectedCase knowing(@Nullable OffsetDateTime asOf) {
        OffsetDateTime before = file.asOf();
        return asOf == null || before != null && asOf.isBefore(before) ? this : with(file.advanceTo(asOf));
    }

    /** Knowing which events are not to be folded when they come. */
    ProjectedCase settingAside(List<SetAside> events) {
        PMap<Long, SetAside> all = setAside;
        for (SetAside event : events) {
            all = all.plus(event.seq(), event);
        }
        return new ProjectedCase(key, file, received, all, seq);
    }

    /** Without an event that is to be set aside. */
    ProjectedCase without(SetAside event) {
        return new ProjectedCase(key, file, received, setAside.plus(event.seq(), event), Math.max(seq, event.seq()));
    }

    List<EventEnvelope> events() {
        return received.values().stream().map(Ledger.Entry::event).toList();
    }

    PayloadDigests digests() {
        return eventId -> {
            Ledger.Entry entry = received.get(eventId);
            if (entry == null) {
                throw new IllegalArgumentException("no event " + eventId + " in " + key);
            }
            return entry.digest();
        };
    }
}
