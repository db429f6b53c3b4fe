package example.tamponade.app.projection;

import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.record.NewVersion;
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

/**
 * The way from events to resources: entries, fold, map, difference, check, store. Events that waited together are one step:
 * what they bring is mapped once, as it is after the last of them. What was derived is followed event by event, so that
 * what stands at the end does not depend on how the events were cut into steps.
 */
public final class CaseProjection {

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

    /** Takes in events that follow those of the case; what is on record already is folded alone. */
    ProjectedCase advance(ProjectedCase before, List<Ledger.Entry> entries, VersionStore record) {
        long onRecord = record.checkpoint(before.key());
        List<ProjectionStep.Folded> folded = new ArrayList<>();
        ProjectedCase now = before;
        for (Ledger.Entry entry : entries) {
            CaseFile file = now.file();
            CaseChange change = file.apply(entry.event());
            now = now.with(entry, change);
            if (entry.seq() > onRecord) {
                folded.add(new ProjectionStep.Folded(entry.event(), file, change));
            }
        }
        if (!folded.isEmpty()) {
            store(now, step(record).versions(folded, now), record);
        }
        return now;
    }

    /** Lets time pass, and puts on record the warnings that it alone has brought. */
    ProjectedCase advanceTo(OffsetDateTime time, ProjectedCase before, VersionStore record) {
        CaseChange change = before.file().advanceTo(time);
        ProjectedCase now = before.with(change);
        StepVersions versions = step(record).warnings(change);
        if (!versions.isEmpty()) {
            store(now, versions, record);
        }
        return now;
    }

    private ProjectionStep step(VersionStore record) {
        return new ProjectionStep(parts.mapper(), new StepVersions(record));
    }

    private void store(ProjectedCase now, StepVersions versions, VersionStore record) {
        List<NewVersion> changed = versions.changed();
        NonconformingException.throwUnlessPassed(
                now.key(),
                parts.conformance()
                        .checkTexts(changed.stream().map(NewVersion::text).toList()));
        record.store(now.key(), versions.names(), changed, now.seq());
    }
}
