package example.tamponade.app.projection;

import example.tamponade.app.intake.FaultLog;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.record.Checkpoint;
import example.tamponade.app.record.NewVersion;
import example.tamponade.app.record.SetAside;
import example.tamponade.app.record.VersionStore;
import example.tamponade.app.records.NonconformingException;
import example.tamponade.app.records.RecordParts;
import example.tamponade.core.casefile.CaseChange;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.dao.DataAccessException;
import org.springframework.transaction.TransactionException;

/**
 * The way from events to resources: entries, fold, map, difference, check, store. Events that waited together are one step:
 * what they bring is mapped once, as it is after the last of them. What was derived is followed event by event, so that
 * what stands at the end does not depend on how the events were cut into steps.
 */
public final class CaseProjection {

    private static final Logger LOG = LoggerFactory.getLogger(CaseProjection.class);

    private static final Comparator<Ledger.Entry> AS_RECORDED = Comparator.comparing(
                    (Ledger.Entry it) -> it.event().recordedAt().toInstant())
            .thenComparing(it -> it.event().occurredAt().toInstant())
            .thenComparing(it -> it.event().eventId().toString());

    private final RecordParts parts;

    /** Maps and checks with these parts. */
    public CaseProjection(RecordParts parts) {
        this.parts = parts;
    }

    /**
     * Puts events on record in the order in which they were recorded, and as of the latest of them, so that what comes out
     * depends on the events alone.
     *
     * @param key what they are filed under
     * @return the case file
     */
    public CaseFile whole(String key, List<Ledger.Entry> entries, CareProtocol protocol, VersionStore record) {
        List<Ledger.Entry> asRecorded = entries.stream().sorted(AS_RECORDED).toList();
        ProjectedCase all = advance(ProjectedCase.empty(key, protocol), asRecorded, record);
        return all.isOfFacility()
                ? all.file()
                : all.events().stream()
                        .map(EventEnvelope::occurredAt)
                        .max(Comparator.comparing(OffsetDateTime::toInstant))
                        .map(it -> advanceTo(it, all, record).file())
                        .orElse(all.file());
    }

    /**
     * Takes in events that follow those of the case; what is on record already is folded alone. An event that this
     * software fails to put on record is set aside, and the case goes on without it.
     */
    ProjectedCase advance(ProjectedCase before, List<Ledger.Entry> entries, VersionStore record) {
        try {
            return together(before, entries, record);
        } catch (DataAccessException | TransactionException e) {
            // The database's failure, not the event's.
            throw e;
        } catch (RuntimeException | StackOverflowError e) {
            if (entries.size() == 1) {
                return without(before, entries.get(0), e, record);
            }
            int half = entries.size() / 2;
            ProjectedCase first = advance(before, entries.subList(0, half), record);
            return advance(first, entries.subList(half, entries.size()), record);
        }
    }

    private ProjectedCase together(ProjectedCase before, List<Ledger.Entry> entries, VersionStore record) {
        Checkpoint checkpoint = record.checkpoint(before.key());
        long onRecord = checkpoint.seq();
        List<ProjectionStep.Folded> folded = new ArrayList<>();
        // Another adapter may have let time pass: an event takes back what that brought only when it is known.
        ProjectedCase now = before.knowing(checkpoint.asOf());
        for (Ledger.Entry entry : entries) {
            SetAside setAside = before.setAside().get(entry.seq());
            if (setAside != null) {
                now = now.without(setAside);
                continue;
            }
            CaseFile file = now.file();
            CaseChange change = file.apply(entry.event());
            now = now.with(entry, change);
            if (entry.seq() > onRecord) {
                folded.add(new ProjectionStep.Folded(entry.event(), file, change));
            }
        }
        if (now.seq() > onRecord) {
            store(now, step(record).versions(folded, now), record);
        }
        return now;
    }

    private ProjectedCase without(ProjectedCase before, Ledger.Entry entry, Throwable failure, VersionStore record) {
        SetAside event = new SetAside(entry.seq(), entry.event(), parts.mapper().softwareVersion());
        record.setAside(before.key(), event, reason(failure));
        FaultLog.error(LOG, "an event is set aside; quarantine has it with the reason, please report it", failure);
        return together(before.without(event), List.of(entry), record);
    }

    /** What failed, for those who look at what is in quarantine. */
    static String reason(Throwable failure) {
        return failure instanceof NonconformingException problem
                ? String.valueOf(problem.getMessage())
                : "its resources could not be made";
    }

    /**
     * Takes in an event that was set aside.
     *
     * @throws RuntimeException when it cannot be put on record now either
     */
    ProjectedCase again(ProjectedCase before, Ledger.Entry entry, VersionStore record) {
        CaseChange change = before.file().apply(entry.event());
        ProjectedCase now = before.with(entry, change);
        ProjectionStep.Folded folded = new ProjectionStep.Folded(entry.event(), before.file(), change);
        store(now, step(record).versionsAfterAll(folded, now), record);
        return now;
    }

    /** Lets time pass, and puts on record the warnings that it alone has brought. It never runs backwards. */
    ProjectedCase advanceTo(OffsetDateTime time, ProjectedCase before, VersionStore record) {
        OffsetDateTime asOf = before.file().asOf();
        if (asOf != null && time.isBefore(asOf)) {
            return before;
        }
        CaseChange change = before.file().advanceTo(time);
        ProjectedCase now = before.with(change);
        StepVersions versions = step(record).warnings(change);
        if (!versions.isEmpty()) {
            store(now, versions, record);
        }
        return now;
    }

    private ProjectionStep step(VersionStore record) {
        return new ProjectionStep(parts.mapper(), new StepVersions(record, parts.site()));
    }

    private void store(ProjectedCase now, StepVersions versions, VersionStore record) {
        List<NewVersion> changed = versions.changed();
        NonconformingException.throwUnlessPassed(
                now.key(),
                parts.conformance()
                        .checkTexts(changed.stream().map(NewVersion::text).toList()));
        record.store(
                now.key(),
                versions.names(),
                changed,
                Checkpoint.upTo(now.seq(), now.file().asOf()));
    }
}
