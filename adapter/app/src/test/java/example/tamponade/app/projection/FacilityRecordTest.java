package example.tamponade.app.projection;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.ledger.Ledger;
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
import java.util.stream.IntStream;
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
        MemoryRecord before = record(first, second);
        MemoryRecord after = record(first, second, retraction);

        assertThat(before.ofCase(CaseKey.of(first)))
                .filteredOn(it -> it instanceof Flag flag && flag.getStatus() == Flag.FlagStatus.INACTIVE)
                .hasSize(1);
        assertThat(after.ofCase(CaseKey.of(first)))
                .filteredOn(Flag.class::isInstance)
                .singleElement()
                .satisfies(it -> assertThat(((Flag) it).getStatus()).isEqualTo(Flag.FlagStatus.ENTEREDINERROR));
        assertThat(after.ofCase(CaseKey.of(first)))
                .filteredOn(it -> it instanceof Observation observation
                        && observation.hasMethod()
                        && observation.getStatus() != Observation.ObservationStatus.ENTEREDINERROR)
                .allSatisfy(it -> assertThat(it.getMeta().getSource()).contains(SECOND.toString()));
    }

    private static MemoryRecord record(EventEnvelope... events) {
        MemoryRecord record = new MemoryRecord();
        List<Ledger.Entry> entries = IntStream.range(0, events.length)
                .mapToObj(it -> new Ledger.Entry(it + 1L, events[it], "0".repeat(64)))
                .toList();
        new CaseProjection(RecordParts.shared())
                .advance(ProjectedCase.empty(CaseKey.of(events[0]), CareProtocol.standard()), entries, record);
        return record;
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
