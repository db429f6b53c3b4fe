package example.tamponade.app.projection;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Original;
import example.tamponade.app.ledger.Arrival;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.outbox.Outbox;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.app.quarantine.QuarantineEntry;
import example.tamponade.app.quarantine.QuarantineFilter;
import example.tamponade.app.quarantine.QuarantineState;
import example.tamponade.app.quarantine.WholeEntry;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.records.RecordParts;
import example.tamponade.core.protocol.CareProtocol;
import java.io.IOException;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.hl7.fhir.r4.model.DetectedIssue;

/** An event that cannot be put on record takes nothing else with it. */
class SetAsideIT {

    private static final Clock CLOCK = Clock.systemUTC();
    private static final int PLACE = 20;

    // Intake took such a time once; FHIR has no place for it.
    private static final String UNTOLD = """
            {"eventId":"6f0d3c1e-5a44-4d0e-9a55-0f6f6ce1a001","caseId":"%s","facilityId":"fernglade-hp",\
            "occurredAt":"2026-03-03T23:00:00+18:00","recordedAt":"2026-03-03T23:01:00+18:00",\
            "recordedBy":{"id":"fg-17","role":"birth-attendant"},"type":"note","data":{"text":"warm and dry"}}""";

    @EachDatabase
    void theCaseGoesOnWithoutItAndSaysSo(TestDatabase where) throws IOException {
        List<String> events = sample();
        try (Database database = Database.open(where.settings())) {
            Ledger ledger = new Ledger(database);
            ResourceRecord record = new ResourceRecord(database, new Outbox(database, CLOCK), CLOCK);
            append(ledger, events);
            String key = caseKey(ledger);
            records(database, ledger, record).bringUpToDate(key);
            Map<String, String> without = served(record, key);

            String untold =
                    UNTOLD.formatted(Objects.requireNonNull(CaseKey.caseId(key)).number());
            append(ledger, List.of(untold));
            CaseRecords after = records(database, ledger, record);
            after.bringUpToDate(key);
            after.letTimePass(key);

            assertThat(ledger.behindCheckpoint()).doesNotContain(key);
            assertThat(record.countSetAside()).isEqualTo(1);
            Map<String, String> with = served(record, key);
            without.forEach((name, json) -> assertThat(with).containsEntry(name, json));
            assertThat(issues(record, key)).singleElement().satisfies(it -> {
                assertThat(it.getStatus()).isEqualTo(DetectedIssue.DetectedIssueStatus.FINAL);
                assertThat(it.getDetail()).contains("6f0d3c1e-5a44-4d0e-9a55-0f6f6ce1a001", "note", "quarantine");
            });
            assertThat(kept(database)).satisfies(it -> {
                assertThat(it.entry().state()).isEqualTo(QuarantineState.OPEN);
                assertThat(new String(it.content().bytes(), UTF_8)).isEqualTo(untold);
                assertThat(it.steps().get(0).reasons().get(0)).containsEntry("code", "adapter-fault");
            });

            byOtherSoftware(database);
            records(database, ledger, record).bringUpToDate(key);
            assertThat(record.setAsideByOthersThan(RecordParts.SOFTWARE_VERSION))
                    .isEmpty();
            assertThat(record.countSetAside()).isEqualTo(1);
            assertThat(kept(database).entry().state()).isEqualTo(QuarantineState.OPEN);
        }
    }

    @EachDatabase
    void itIsPutOnRecordByTheVersionThatCan(TestDatabase where) throws IOException {
        List<String> events = sample();
        try (Database database = Database.open(where.settings())) {
            Ledger ledger = new Ledger(database);
            ResourceRecord record = new ResourceRecord(database, new Outbox(database, CLOCK), CLOCK);
            append(ledger, events);
            String key = caseKey(ledger);
            Ledger.Entry entry = ledger.entries(key, 0, Long.MAX_VALUE).get(PLACE);
            record.setAside(
                    key,
                    new example.tamponade.app.record.SetAside(entry.seq(), entry.event(), RecordParts.SOFTWARE_VERSION),
                    "failed");
            records(database, ledger, record).bringUpToDate(key);
            assertThat(issues(record, key)).hasSize(1);
            assertThat(ledger.behindCheckpoint()).doesNotContain(key);

            byOtherSoftware(database);
            CaseRecords updated = records(database, ledger, record);
            assertThat(updated.behind()).contains(key);
            updated.bringUpToDate(key);

            assertThat(updated.behind()).doesNotContain(key);
            assertThat(record.countSetAside()).isZero();
            assertThat(issues(record, key))
                    .singleElement()
                    .satisfies(it ->
                            assertThat(it.getStatus()).isEqualTo(DetectedIssue.DetectedIssueStatus.ENTEREDINERROR));
            assertThat(kept(database).entry().state()).isEqualTo(QuarantineState.TAKEN);
            assertThat(record.ofCase(key))
                    .anyMatch(it -> ("urn:uuid:" + entry.event().eventId())
                                    .equals(it.getMeta().getSource())
                            && it.fhirType().equals("Provenance"));
        }
    }

    private static List<String> sample() throws IOException {
        return new String(Samples.events("settled"), UTF_8).lines().limit(60).toList();
    }

    private static void append(Ledger ledger, List<String> events) {
        List<Arrival> arrivals = new ArrayList<>();
        for (String event : events) {
            byte[] bytes = event.getBytes(UTF_8);
            arrivals.add(new Arrival(
                    new Intake.Taken(EventReader.stored(event), event, "0".repeat(64)),
                    InputFormat.EVENT,
                    Original.of(bytes),
                    Instant.now()));
        }
        ledger.append(arrivals);
    }

    private static String caseKey(Ledger ledger) {
        return ledger.caseKeys().stream()
                .filter(it -> it.startsWith("case/"))
                .findFirst()
                .orElseThrow();
    }

    private static CaseRecords records(Database database, Ledger ledger, ResourceRecord record) {
        return new CaseRecords(CareProtocol.standard(), database, ledger, record, RecordParts.shared(), CLOCK);
    }

    private static void byOtherSoftware(Database database) {
        database.jdbc().sql("update set_aside set software = '0.0.1'").update();
    }

    private static WholeEntry kept(Database database) {
        Quarantine quarantine = new Quarantine(database);
        List<QuarantineEntry> all = quarantine.entries(new QuarantineFilter(null, null, null, null, null, 10));
        assertThat(all).hasSize(1);
        return quarantine.entry(all.get(0).id()).orElseThrow();
    }

    private static List<DetectedIssue> issues(ResourceRecord record, String key) {
        return record.ofCase(key).stream()
                .filter(DetectedIssue.class::isInstance)
                .map(DetectedIssue.class::cast)
                .filter(it -> it.getCode().getCoding().stream().anyMatch(c -> "event-set-aside".equals(c.getCode())))
                .toList();
    }

    private static Map<String, String> served(ResourceRecord record, String key) {
        return new TreeMap<>(record.latest(record.ofCase(key).stream()
                .map(it -> it.fhirType() + "/" + it.getIdPart())
                .toList()));
    }
}
