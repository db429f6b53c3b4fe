package example.tamponade.app.ledger;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import example.tamponade.app.Samples;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Original;
import example.tamponade.app.outbox.Outbox;
import example.tamponade.app.record.Checkpoint;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.core.protocol.CareProtocol;
import java.io.IOException;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Collectors;
import java.util.stream.LongStream;

/** The same behaviour on every database. */
class LedgerIT {

    private static final EventReader READER = new EventReader(CareProtocol.standard(), Clock.systemUTC());
    private static final String CASE = "case/fernglade-hp/FGL-2026-0117";

    @EachDatabase
    void keepsEachEventOnceInTheOrderItCame(TestDatabase where) throws IOException {
        try (Database database = Database.open(where.settings())) {
            Ledger ledger = new Ledger(database);
            List<Arrival> arrivals = arrivals("settled");

            assertThat(ledger.append(arrivals.subList(0, 50))).containsOnly(Appended.STORED);
            assertThat(ledger.append(arrivals.subList(40, 60)))
                    .containsExactlyElementsOf(results(10, Appended.ALREADY_STORED, 10, Appended.STORED));

            List<Ledger.Entry> entries = ledger.entries(CASE, 0, Long.MAX_VALUE);
            assertThat(entries.stream().map(it -> it.event().eventId()))
                    .containsExactlyElementsOf(arrivals.subList(0, 60).stream()
                            .filter(it -> it.taken().event().caseId() != null)
                            .map(it -> it.taken().event().eventId())
                            .toList());
            assertThat(entries.stream().map(Ledger.Entry::seq))
                    .containsExactlyElementsOf(
                            LongStream.rangeClosed(1, entries.size()).boxed().toList());
            assertThat(ledger.size()).isEqualTo(60);
        }
    }

    @EachDatabase
    void refusesAnotherEventUnderATakenId(TestDatabase where) throws IOException {
        try (Database database = Database.open(where.settings())) {
            Ledger ledger = new Ledger(database);
            String line = lines("settled").get(8);
            Arrival event = arrival(line);
            Arrival elsewhere = arrival(line.replace("FGL-2026-0117", "FGL-2026-0118"));
            Arrival reworded = arrival(line.replace("{\"eventId\"", "{ \"eventId\""));

            assertThat(ledger.append(List.of(event, elsewhere, reworded)))
                    .containsExactly(Appended.STORED, Appended.CONFLICT, Appended.ALREADY_STORED);
            assertThat(ledger.append(List.of(elsewhere, reworded)))
                    .containsExactly(Appended.CONFLICT, Appended.ALREADY_STORED);
            assertThat(ledger.size()).isEqualTo(1);
        }
    }

    // What corrects an event is told by the same resources, which are of one case: none writes over another's.
    @EachDatabase
    void correctsNothingOfAnotherCase(TestDatabase where) throws IOException {
        try (Database database = Database.open(where.settings())) {
            Ledger ledger = new Ledger(database);
            String line = lines("settled").get(8);
            String target = line.replaceFirst(".*?\"eventId\":\"([^\"]*)\".*", "$1");
            String correcting = line.replace(target, id(7)).replaceFirst("\\{", "{\"corrects\":\"" + target + "\",");
            Arrival elsewhere = arrival(correcting.replace("FGL-2026-0117", "FGL-2026-0118"));

            assertThat(ledger.append(List.of(arrival(line), elsewhere)))
                    .containsExactly(Appended.STORED, Appended.ANOTHER_CASE);
            assertThat(ledger.append(List.of(elsewhere))).containsExactly(Appended.ANOTHER_CASE);
            assertThat(ledger.append(List.of(arrival(correcting)))).containsExactly(Appended.STORED);
        }
    }

    // In one commit and in several; a mother is not another for what only one of two openings says.
    @EachDatabase
    void aCaseIsOfOneMother(TestDatabase where) throws IOException {
        try (Database database = Database.open(where.settings())) {
            Ledger ledger = new Ledger(database);
            Arrival first = opening(1, "\"name\":\"Ombeline Quarry\"", "");
            Arrival again = opening(2, "\"name\":\"ombeline  quarry\",\"ageYears\":31", "");
            Arrival another = opening(3, "\"name\":\"Tansy Marl\"", "");
            Arrival correcting = opening(4, "\"name\":\"Tansy Marl\"", "\"corrects\":\"" + id(1) + "\",");
            assertThat(ledger.append(List.of(first, again, another)))
                    .containsExactly(Appended.STORED, Appended.STORED, Appended.ANOTHER_MOTHER);
            assertThat(ledger.append(List.of(another))).containsExactly(Appended.ANOTHER_MOTHER);

            assertThat(ledger.append(List.of(withdrawal(5, 2), correcting, another)))
                    .containsExactly(Appended.STORED, Appended.STORED, Appended.STORED);
            assertThat(ledger.append(List.of(opening(6, "\"name\":\"Ombeline Quarry\"", ""))))
                    .containsExactly(Appended.ANOTHER_MOTHER);
            assertThat(ledger.append(List.of(opening(6, "\"name\":\"Ombeline Quarry\"", "\"caseFacility\":\"g\","))))
                    .containsExactly(Appended.STORED);
        }
    }

    private static String id(int number) {
        return "6f0d3c1e-5a44-4d0e-9a55-0f6f6ce1a10" + number;
    }

    private static Arrival opening(int number, String mother, String more) {
        return arrival("""
                {"eventId":"%s","caseId":"C-1",%s"facilityId":"f","occurredAt":"2026-02-28T10:00:00Z",\
                "recordedAt":"2026-02-28T10:00:00Z","recordedBy":{"id":"m","role":"midwife"},"type":"case-opened",\
                "data":{"mother":{"identifiers":[],%s},"encounterStart":"2026-02-28T10:00:00Z"}}""".formatted(id(number), more, mother));
    }

    private static Arrival withdrawal(int number, int retracted) {
        return arrival("""
                {"eventId":"%s","caseId":"C-1","facilityId":"f","occurredAt":"2026-02-28T10:00:00Z",\
                "recordedAt":"2026-02-28T10:00:00Z","recordedBy":{"id":"m","role":"midwife"},"retracts":"%s"}""".formatted(id(number), id(retracted)));
    }

    @EachDatabase
    void onlyCasesWithAnEventBehindTheirCheckpointAreBehind(TestDatabase where) throws IOException {
        try (Database database = Database.open(where.settings())) {
            Ledger ledger = new Ledger(database);
            List<Arrival> arrivals = arrivals("settled");
            ledger.append(arrivals.subList(0, 60));
            String facility = "facility/fernglade-hp";
            long events = ledger.entries(CASE, 0, Long.MAX_VALUE).size();
            assertThat(ledger.behindCheckpoint()).containsExactlyInAnyOrder(CASE, facility);

            new ResourceRecord(database, new Outbox(database, Clock.systemUTC()), Clock.systemUTC())
                    .store(CASE, List.of(), List.of(), Checkpoint.upTo(events, null));
            assertThat(ledger.behindCheckpoint()).containsExactly(facility);

            ledger.append(arrivals.subList(60, 61));
            assertThat(ledger.behindCheckpoint()).containsExactlyInAnyOrder(CASE, facility);
        }
    }

    @EachDatabase
    void severalAdaptersAppendToOneChain(TestDatabase where) throws Exception {
        List<Arrival> arrivals = arrivals("referred");
        ExecutorService senders = Executors.newFixedThreadPool(4);
        try (Database one = Database.open(where.settings());
                Database other = Database.open(where.settings())) {
            List<Callable<List<Appended>>> work = new ArrayList<>();
            for (int from = 0; from + 20 <= arrivals.size(); from += 10) {
                List<Arrival> some = arrivals.subList(from, from + 20);
                work.add(() -> new Ledger(one).append(some));
                work.add(() -> new Ledger(other).append(some));
            }
            List<Appended> results = new ArrayList<>();
            for (Future<List<Appended>> done : senders.invokeAll(work)) {
                results.addAll(done.get());
            }

            long events = arrivals.size() / 10 * 10;
            assertThat(results).doesNotContain(Appended.CONFLICT);
            assertThat(results.stream().filter(it -> it == Appended.STORED).count())
                    .isEqualTo(events);
            assertThat(new Ledger(one).size()).isEqualTo(events);
            assertThat(faults(other)).isEmpty();
        } finally {
            senders.shutdown();
        }
    }

    @EachDatabase
    void theDatabaseItselfRefusesToChangeAnEvent(TestDatabase where) throws IOException, SQLException {
        filled(where);
        try (Connection connection = where.connect();
                Statement statement = connection.createStatement()) {
            for (String change : List.of("update ledger set payload = '{}'", "delete from ledger")) {
                SQLException refusal = assertThrows(SQLException.class, () -> statement.execute(change));
                assertThat(refusal.getMessage()).contains("append-only");
            }
        }
    }

    @EachDatabase
    void findsWhatWasChangedSinceItWasWritten(TestDatabase where) throws IOException, SQLException {
        filled(where);

        assertThat(faultsAfter(where)).isEmpty();
        assertThat(faultsAfter(
                        where,
                        "update ledger set payload = replace(payload, '\"midwife\"', '\"doctor\"')"
                                + " where case_key = '" + CASE + "' and case_seq = 7"))
                .containsExactly(7L, 7L);
        assertThat(faultsAfter(
                        where,
                        "update ledger set received_at = '2026-02-11T00:00:00.000Z'" + " where case_key = '" + CASE
                                + "' and case_seq = 9"))
                .contains(9L);
    }

    @EachDatabase
    void findsWhatWasTakenOutOrMoved(TestDatabase where) throws IOException, SQLException {
        filled(where);
        String at = " where case_key = '" + CASE + "' and case_seq = ";

        assertThat(faultsAfter(
                        where,
                        "update ledger set case_seq = 1000" + at + 5,
                        "update ledger set case_seq = 5" + at + 6,
                        "update ledger set case_seq = 6" + at + 1000))
                .contains(5L, 6L);
        assertThat(faultsAfter(where, "delete from ledger" + at + 20)).contains(20L);
    }

    @EachDatabase
    void findsAnEndThatWasCutOff(TestDatabase where) throws IOException, SQLException {
        filled(where);
        try (Database database = Database.open(where.settings())) {
            KeptEnd kept = new ChainCheck(database).check(CASE, List.of()).end();

            unguarded(where, "delete from ledger where case_key = '" + CASE + "' and case_seq = " + kept.caseSeq());
            assertThat(faults(database)).hasSize(2).first().asString().contains("its rows end at");

            // With the end rewritten as well the case's chain is whole again; that of all commits tells, and what was
            // kept elsewhere.
            unguarded(
                    where,
                    "update case_head set case_seq = case_seq - 1, link = (select link from ledger l where"
                            + " l.case_key = case_head.case_key and l.case_seq = case_head.case_seq - 1) where case_key = '"
                            + CASE + "'");
            assertThat(faults(database)).hasSize(1).first().asString().contains("the chain of commits says");
            assertThat(new ChainCheck(database).check(CASE, List.of(kept)).faults())
                    .hasSize(2)
                    .last()
                    .asString()
                    .contains("kept elsewhere");
        }
    }

    @EachDatabase
    void anEventThatIsWrittenOtherwiseIsTheSame(TestDatabase where) throws IOException {
        String event = """
                {"eventId":"6f0d3c1e-5a44-4d0e-9a55-0f6f6ce1a001","caseId":"C-1","facilityId":"f",\
                "occurredAt":"2026-02-28T10:00:00Z","recordedAt":"2026-02-28T10:00:00Z",\
                "recordedBy":{"id":"m","role":"midwife"},"type":"medicine-given",\
                "data":{"substance":"tranexamic-acid","dose":1,"unit":"g","route":"intravenous"}}""";
        String otherwise = """
                {"data": {"route": "intravenous", "unit": "g", "dose": 1.00, "substance": "tranexamic-acid"},
                 "type": "medicine-given", "recordedBy": {"role": "midwife", "id": "m"},
                 "recordedAt": "2026-02-28T10:00:00.000+00:00", "occurredAt": "2026-02-28T10:00:00Z",
                 "facilityId": "f", "caseId": "C-1", "eventId": "6f0d3c1e-5a44-4d0e-9a55-0f6f6ce1a001"}""";
        String another = event.replace("\"dose\":1,", "\"dose\":1.01,");
        try (Database database = Database.open(where.settings())) {
            Ledger ledger = new Ledger(database);
            assertThat(ledger.append(List.of(arrival(event), arrival(otherwise), arrival(another))))
                    .containsExactly(Appended.STORED, Appended.ALREADY_STORED, Appended.CONFLICT);
            assertThat(ledger.append(List.of(arrival(otherwise), arrival(another))))
                    .containsExactly(Appended.ALREADY_STORED, Appended.CONFLICT);
        }
    }

    @EachDatabase
    void findsAnOriginalThatWasChanged(TestDatabase where) throws IOException, SQLException {
        Intake.Taken taken =
                (Intake.Taken) READER.read(Original.of(lines("settled").get(8).getBytes(UTF_8)));
        // The digest is what sha256sum of GNU coreutils prints for the text.
        Intake.Taken fromRegister = new Intake.Taken(
                taken.event(), taken.payload(), "94d91203022f9cfbbeb1131b3c96d28530f7a93e73afd1df21ad03ca365bac11");
        byte[] row = "its row in the register".getBytes(UTF_8);
        try (Database database = Database.open(where.settings())) {
            new Ledger(database)
                    .append(List.of(new Arrival(fromRegister, InputFormat.REGISTER, Original.of(row), Instant.EPOCH)));
            assertThat(faults(database)).isEmpty();
        }
        unguarded(where, "delete from original");
        try (Database database = Database.open(where.settings())) {
            assertThat(faults(database)).hasSize(1).first().asString().contains("original");
        }
    }

    private static List<Long> faultsAfter(TestDatabase where, String... changes) throws IOException, SQLException {
        for (String change : changes) {
            unguarded(where, change);
        }
        try (Database database = Database.open(where.settings())) {
            return faults(database).stream().map(ChainFault::caseSeq).toList();
        }
    }

    // As somebody could who may do anything on the database.
    private static void unguarded(TestDatabase where, String change) throws SQLException {
        try (Connection connection = where.connect();
                Statement statement = connection.createStatement()) {
            boolean sqlite = where.toString().equals("SQLITE");
            for (String table : List.of("ledger", "original")) {
                for (String guard : sqlite ? List.of("updated", "deleted") : List.of("changed")) {
                    statement.execute(
                            "drop trigger if exists " + table + "_is_not_" + guard + (sqlite ? "" : " on " + table));
                }
            }
            statement.execute(change);
        }
    }

    private static List<ChainFault> faults(Database database) {
        ChainCheck check = new ChainCheck(database);
        return check.caseKeys().stream()
                .flatMap(it -> check.check(it, List.of()).faults().stream())
                .toList();
    }

    private static void filled(TestDatabase where) throws IOException {
        try (Database database = Database.open(where.settings())) {
            new Ledger(database).append(arrivals("settled").subList(0, 60));
        }
    }

    private static List<Appended> results(int first, Appended one, int then, Appended other) {
        List<Appended> results = new ArrayList<>(java.util.Collections.nCopies(first, one));
        results.addAll(java.util.Collections.nCopies(then, other));
        return results;
    }

    private static List<Arrival> arrivals(String sample) {
        return lines(sample).stream().map(LedgerIT::arrival).collect(Collectors.toList());
    }

    private static Arrival arrival(String line) {
        byte[] bytes = line.getBytes(UTF_8);
        Original original = Original.of(bytes);
        return new Arrival((Intake.Taken) READER.read(original), InputFormat.EVENT, original, Instant.EPOCH);
    }

    private static List<String> lines(String sample) {
        return Arrays.asList(new String(Samples.events(sample), UTF_8).split("\n"));
    }
}
