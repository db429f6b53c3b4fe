package example.tamponade.app.projection;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.record.MemoryRecord;
import example.tamponade.app.records.RecordParts;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.EventSource;
import example.tamponade.core.event.ReadinessChecked;
import example.tamponade.core.event.Recorder;
import example.tamponade.core.event.StaffRole;
import example.tamponade.core.event.StoredSet;
import example.tamponade.core.protocol.CareProtocol;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.UUID;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.Observation;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class FacilityRecordTest {

    private static final OffsetDateTime BEGIN = OffsetDateTime.parse("2026-03-05T08:00:00+03:00");
    private static final UUID FIRST = new UUID(7, 1);
    private static final UUID SECOND = new UUID(7, 2);
    private static final UUID RETRACTION = new UUID(7, 3);

    @Test
    void whatARetractedCheckBroughtStandsNoLonger() {
        EventEnvelope first = event(FIRST, 0, null, check(false));
        EventEnvelope second = event(SECOND, 1, null, check(true));
        EventEnvelope retraction = event(RETRACTION, 2, FIRST, null);
        CaseProjection projection = new CaseProjection(RecordParts.shared());
        MemoryRecord record = new MemoryRecord();
        String key = CaseKey.of(first);
        ProjectedCase two = projection.advance(
                ProjectedCase.empty(key, CareProtocol.standard()), List.of(entry(1, first), entry(2, second)), record);
        assertThat(record.ofCase(key))
                .filteredOn(it -> it instanceof Flag flag && flag.getStatus() == Flag.FlagStatus.INACTIVE)
                .hasSize(1);

        projection.advance(two, List.of(entry(3, retraction)), record);
        assertThat(record.ofCase(key))
                .filteredOn(Flag.class::isInstance)
                .singleElement()
                .satisfies(it -> assertThat(((Flag) it).getStatus()).isEqualTo(Flag.FlagStatus.ENTEREDINERROR));
        assertThat(record.ofCase(key))
                .filteredOn(it -> it instanceof Observation observation
                        && observation.hasMethod()
                        && observation.getStatus() != Observation.ObservationStatus.ENTEREDINERROR)
                .isNotEmpty()
                .allSatisfy(it -> assertThat(it.getMeta().getSource()).contains(SECOND.toString()));
    }

    private static Ledger.Entry entry(long seq, EventEnvelope event) {
        return new Ledger.Entry(seq, event, "0".repeat(64));
    }

    private static ReadinessChecked check(boolean complete) {
        return new ReadinessChecked(new StoredSet(true, complete, null, null, true), true, true, true, 60);
    }

    private static EventEnvelope event(UUID id, int day, @Nullable UUID retracts, @Nullable BedsideEvent data) {
        OffsetDateTime at = BEGIN.plusDays(day);
        return new EventEnvelope(
                id,
                null,
                "quillmere",
                at,
                at,
                new Recorder("qm-1", StaffRole.NURSE),
                EventSource.FORM,
                null,
                retracts,
                data);
    }
}
