package example.tamponade.app.projection;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Original;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.record.MemoryRecord;
import example.tamponade.app.records.RecordParts;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.lifecycle.AfterContainer;

/** Whatever intake accepts can be told in resources that conform. */
class AnyEventProperties {

    private static final CareProtocol PROTOCOL = CareProtocol.standard();
    private static final EventReader READER =
            new EventReader(PROTOCOL, Clock.fixed(Instant.parse("2026-06-01T12:00:00Z"), ZoneOffset.UTC));
    private static final CaseProjection PROJECTION = new CaseProjection(RecordParts.shared());
    private static final int EVENTS = 12;
    private static final Set<Class<?>> TYPES = new HashSet<>();

    @Property(tries = 1000, shrinking = ShrinkingMode.OFF)
    void whatIntakeAcceptsConforms(@ForAll Random random) {
        AnyEvents events = new AnyEvents(random);
        Map<String, List<Ledger.Entry>> cases = new LinkedHashMap<>();
        List<String> accepted = new ArrayList<>();
        for (int i = 0; i < EVENTS; i++) {
            String text = events.event();
            if (READER.read(Original.of(text.getBytes(UTF_8))) instanceof Intake.Taken taken) {
                accepted.add(text);
                List<Ledger.Entry> entries = cases.computeIfAbsent(CaseKey.of(taken.event()), key -> new ArrayList<>());
                entries.add(new Ledger.Entry(entries.size() + 1L, taken.event(), taken.digest()));
                if (taken.event().data() != null) {
                    TYPES.add(taken.event().data().getClass());
                }
            }
        }

        cases.forEach((key, entries) -> {
            MemoryRecord record = new MemoryRecord();
            String told = String.join("\n", accepted);
            ProjectedCase all = PROJECTION.advance(ProjectedCase.empty(key, PROTOCOL), entries, record);
            assertThat(record.setAside(key)).as(told).isEmpty();
            assertThatCode(() -> letTimePass(all, record)).as(told).doesNotThrowAnyException();
            assertThat(record.setAside(key)).as(told).isEmpty();
        });
    }

    // What a reader asks for an hour later, two days later, and long after.
    private static void letTimePass(ProjectedCase all, MemoryRecord record) {
        OffsetDateTime last = all.events().stream()
                .map(EventEnvelope::occurredAt)
                .max(Comparator.comparing(OffsetDateTime::toInstant))
                .orElseThrow();
        ProjectedCase now = all;
        for (Duration later : List.of(Duration.ofHours(1), Duration.ofHours(48), Duration.ofDays(400))) {
            now = PROJECTION.advanceTo(last.plus(later), now, record);
        }
    }

    @AfterContainer
    static void everyTypeWasReached() {
        assertThat(TYPES).containsExactlyInAnyOrder(BedsideEvent.class.getPermittedSubclasses());
    }
}
