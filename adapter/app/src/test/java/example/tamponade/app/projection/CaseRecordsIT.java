package example.tamponade.app.projection;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import example.tamponade.app.access.TestCaller;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.formats.Formats;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.outbox.Outbox;
import example.tamponade.app.path.EventPath;
import example.tamponade.app.path.IntakeWriter;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.app.record.MemoryRecord;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.records.RecordParts;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.IntUnaryOperator;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class CaseRecordsIT {

    private static final CareProtocol PROTOCOL = CareProtocol.standard();
    private static final Clock CLOCK = Clock.systemUTC();
    private static final long SEED = 20261126;

    static Stream<Arguments> samplesInThreeOrders() {
        return Samples.CASES.stream()
                .flatMap(it -> Stream.of("as recorded", "shuffled", "reversed").map(order -> Arguments.of(it, order)));
    }

    // How many events had come when the projector looked is chance; what is on record in the end is not.
    @ParameterizedTest
    @MethodSource("samplesInThreeOrders")
    void theServerEndsWithTheResourcesOfConvertHoweverTheEventsWereCut(String sample, String order) throws IOException {
        List<Piece> pieces = pieces(sample, order);
        Map<String, String> whole;
        try (Server atOnce = new Server()) {
            atOnce.take(pieces, left -> left);
            whole = atOnce.served();
            assertIsConverted(whole, atOnce.converted(), order);
        }
        Random random = new Random(SEED);
        boolean asRecorded = order.equals("as recorded");
        for (IntUnaryOperator cut :
                List.<IntUnaryOperator>of(left -> asRecorded ? 1 : 7, left -> 1 + random.nextInt(40))) {
            try (Server server = new Server()) {
                server.take(pieces, cut);
                assertThat(differences(server.served(), whole)).isEmpty();
            }
        }
    }

    // Where events came in another order than they were recorded, a reader may have seen other values and warnings on
    // the
    // way: they stand as amended and as entered in error, with what they were derived from.
    private static void assertIsConverted(Map<String, String> served, Map<String, String> converted, String order) {
        if (order.equals("as recorded")) {
            assertThat(differences(served, converted)).isEmpty();
        }
        Map<String, String> standing = standing(served);
        assertThat(standing).hasSizeGreaterThan(100);
        assertThat(differences(standing, standing(converted))).isEmpty();
    }

    private static Map<String, String> standing(Map<String, String> resources) {
        Map<String, String> standing = new TreeMap<>();
        resources.forEach((name, json) -> {
            if (!json.contains("\"entered-in-error\"") && !json.contains("/derivation-provenance\"")) {
                standing.put(name, asFinal(json));
            }
        });
        return standing;
    }

    private static String asFinal(String json) {
        return json.replace("\"status\":\"amended\"", "\"status\":\"final\"");
    }

    private static List<String> differences(Map<String, String> some, Map<String, String> others) {
        Set<String> names = new TreeSet<>(some.keySet());
        names.addAll(others.keySet());
        return names.stream()
                .filter(it -> !Objects.equals(some.get(it), others.get(it)))
                .map(it -> some.get(it) + "\n" + others.get(it))
                .toList();
    }

    // Whoever restarts, and whichever of several adapters lets time pass: what it brings is on record, and an event
    // that
    // comes late takes back what it calls off.
    @ParameterizedTest
    @ValueSource(ints = {20, 60, 100, 160})
    void whatTimeBringsDoesNotDependOnWhoLetItPass(int beginning) throws IOException {
        List<Piece> pieces = pieces("settled", "as recorded");
        Clock later = Clock.fixed(
                event(pieces.get(beginning - 1)).occurredAt().plusHours(6).toInstant(), ZoneOffset.UTC);
        try (Server one = new Server();
                Server restarted = new Server();
                Server shared = new Server()) {
            CaseRecords alone = one.records(later);
            one.take(pieces.subList(0, beginning), alone);
            one.letTimePass(alone);
            restarted.take(pieces.subList(0, beginning), restarted.records(later));
            restarted.letTimePass(restarted.records(later));
            CaseRecords early = shared.records(
                    Clock.fixed(event(pieces.get(beginning - 1)).occurredAt().toInstant(), ZoneOffset.UTC));
            shared.take(pieces.subList(0, beginning), early);
            shared.letTimePass(shared.records(later));
            assertThat(one.warnings()).anyMatch(it -> it.contains("\"active\""));
            assertThat(restarted.warnings()).isEqualTo(one.warnings());
            assertThat(shared.warnings()).isEqualTo(one.warnings());

            one.take(pieces.subList(beginning, pieces.size()), alone);
            restarted.take(pieces.subList(beginning, pieces.size()), restarted.records(later));
            shared.take(pieces.subList(beginning, pieces.size()), early);
            assertThat(restarted.warnings()).isEqualTo(one.warnings());
            assertThat(shared.warnings()).isEqualTo(one.warnings());
        }
    }

    @Test
    void historyKeepsTheStatesThatAReaderCouldHaveSeen() throws IOException {
        List<Piece> pieces = pieces("messy", "as recorded").subList(0, 75);
        try (Server oneByOne = new Server();
                Server together = new Server()) {
            oneByOne.take(pieces, left -> 1);
            together.take(pieces, left -> left);
            assertThat(together.versions())
                    .allMatch(it -> it.endsWith(" 1"))
                    .hasSizeLessThan(oneByOne.versions().size());
            assertThat(oneByOne.versions()).anyMatch(it -> it.endsWith(" 2"));
            assertThat(together.served().values())
                    .anyMatch(it -> it.contains("\"status\":\"amended\""))
                    .anyMatch(it -> it.contains("\"status\":\"entered-in-error\""));
        }
    }

    private static List<Piece> pieces(String sample, String order) throws IOException {
        List<Piece> pieces = new ArrayList<>();
        try (Pieces all = new Formats(PROTOCOL, Facilities.NONE, CLOCK)
                .of(InputFormat.EVENT)
                .open(new ByteArrayInputStream(Samples.events(sample)))) {
            for (Piece piece = all.next(); piece != null; piece = all.next()) {
                pieces.add(piece);
            }
        }
        pieces.removeIf(it -> !(it.intake() instanceof Intake.Taken));
        pieces.sort(Comparator.comparing((Piece it) -> event(it).recordedAt().toInstant())
                .thenComparing(it -> event(it).occurredAt().toInstant())
                .thenComparing(it -> event(it).eventId().toString()));
        switch (order) {
            case "shuffled" -> Collections.shuffle(pieces, new Random(SEED));
            case "reversed" -> Collections.reverse(pieces);
            default -> {}
        }
        return pieces;
    }

    private static EventEnvelope event(Piece piece) {
        return ((Intake.Taken) piece.intake()).event();
    }

    /** The ledger and the record of a server, on the embedded database. */
    private static final class Server implements AutoCloseable {

        private final TestDatabase where = TestDatabase.of(TestDatabase.Kind.SQLITE);
        private final Database database;
        private final Ledger ledger;
        private final ResourceRecord record;
        private final IntakeWriter writer;

        Server() throws IOException {
            database = Database.open(where.settings());
            ledger = new Ledger(database);
            record = new ResourceRecord(database, new Outbox(database, CLOCK), CLOCK);
            writer = new IntakeWriter(database, ledger, new Quarantine(database), CLOCK, 4000);
        }

        void take(List<Piece> pieces, IntUnaryOperator cut) throws IOException {
            EventPath path = new EventPath(writer);
            CaseRecords records = records(CLOCK);
            for (int from = 0; from < pieces.size(); ) {
                int to = from + cut.applyAsInt(pieces.size() - from);
                path.take(TestCaller.SENDER, pieces.subList(from, Math.min(pieces.size(), to)));
                ledger.behindCheckpoint().forEach(records::bringUpToDate);
                from = to;
            }
        }

        void take(List<Piece> pieces, CaseRecords records) {
            new EventPath(writer).take(TestCaller.SENDER, pieces);
            ledger.behindCheckpoint().forEach(records::bringUpToDate);
        }

        void letTimePass(CaseRecords records) {
            keys().forEach(records::letTimePass);
        }

        /** Every warning on record. */
        List<String> warnings() {
            return keys().stream()
                    .flatMap(it -> record.latest(names(it)).values().stream())
                    .filter(it -> it.contains("\"resourceType\":\"Flag\""))
                    .sorted()
                    .toList();
        }

        /** What is served as of the latest event of each case. */
        Map<String, String> served() {
            Map<String, String> served = new TreeMap<>();
            for (String key : keys()) {
                if (key.startsWith("case/")) {
                    records(Clock.fixed(latest(key).toInstant(), ZoneOffset.UTC))
                            .letTimePass(key);
                }
                served.putAll(record.latest(names(key)));
            }
            return served;
        }

        /** What the same events come to in memory. */
        Map<String, String> converted() {
            Map<String, String> converted = new TreeMap<>();
            for (String key : keys()) {
                MemoryRecord memory = new MemoryRecord();
                new CaseProjection(RecordParts.shared()).whole(key, entries(key), PROTOCOL, memory);
                converted.putAll(memory.latest(memory.ofCase(key).stream()
                        .map(it -> it.fhirType() + "/" + it.getIdPart())
                        .toList()));
            }
            return converted;
        }

        /** Every version on record by its name and number. */
        List<String> versions() {
            return database.jdbc()
                    .sql("select type || '/' || id || ' ' || version from resource_version")
                    .query(String.class)
                    .list();
        }

        private CaseRecords records(Clock clock) {
            return new CaseRecords(PROTOCOL, database, ledger, record, RecordParts.shared(), clock);
        }

        private List<String> keys() {
            return database.jdbc()
                    .sql("select case_key from checkpoint")
                    .query(String.class)
                    .list();
        }

        private List<Ledger.Entry> entries(String key) {
            return ledger.entries(key, 0, Long.MAX_VALUE);
        }

        private OffsetDateTime latest(String key) {
            return entries(key).stream()
                    .map(it -> it.event().occurredAt())
                    .max(Comparator.comparing(OffsetDateTime::toInstant))
                    .orElseThrow();
        }

        private List<String> names(String key) {
            return database.jdbc()
                    .sql("select type || '/' || id from case_resource where case_key = :caseKey")
                    .param("caseKey", key)
                    .query(String.class)
                    .list();
        }

        @Override
        public void close() {
            writer.close();
            database.close();
            where.close();
        }
    }
}
