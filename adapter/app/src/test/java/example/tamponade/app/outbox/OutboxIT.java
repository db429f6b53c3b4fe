package example.tamponade.app.outbox;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.database.Database;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import java.io.IOException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.stream.IntStream;

class OutboxIT {

    private static final String RECORD = "record";
    private static final Duration LEASE = Duration.ofMinutes(1);
    private static final Instant BEGIN = Instant.parse("2026-02-11T12:00:00Z");

    @EachDatabase
    void aCaseHasOneTurnAtATimeAndTheOldestAndTheYoungestComeFirst(TestDatabase where) throws IOException {
        try (Database database = Database.open(where.settings())) {
            at(0, database).register(RECORD, "https://record.example/fhir", "all");
            for (int minute = 0; minute < 4; minute++) {
                add(minute, "case/north/" + minute, 1, database);
            }
            OutboxTurns turns = turns(10, database);

            assertThat(claimed(turns, true)).contains("case/north/0");
            assertThat(claimed(turns, false)).contains("case/north/3");
            assertThat(claimed(turns, true)).contains("case/north/1");
            assertThat(claimed(turns, false)).contains("case/north/2");
            assertThat(claimed(turns, true)).isEmpty();

            // Whoever held it is gone.
            assertThat(claimed(turns(12, database), true)).contains("case/north/0");
        }
    }

    @EachDatabase
    void whatChangesWhileItIsSentStaysDue(TestDatabase where) throws IOException {
        try (Database database = Database.open(where.settings())) {
            at(0, database).register(RECORD, "https://record.example/fhir", "all");
            add(0, "case/north/1", 1, database);
            OutboxTurns turns = turns(1, database);
            claimed(turns, true);
            List<DueResource> sent = turns.due(RECORD, "case/north/1");
            add(1, "case/north/1", 2, database);
            turns.delivered(RECORD, "case/north/1", sent);
            turns.finish(RECORD, "case/north/1");

            assertThat(claimed(turns, true)).contains("case/north/1");
            assertThat(turns.due(RECORD, "case/north/1")).containsExactly(new DueResource("Flag", "a", 2));
            turns.delivered(RECORD, "case/north/1", turns.due(RECORD, "case/north/1"));
            turns.finish(RECORD, "case/north/1");
            assertThat(new OutboxStates(database).states()).allMatch(it -> it.resources() == 0 && it.oldest() == null);
        }
    }

    // The hardest moment: a case is given back as empty while something is added to it.
    @EachDatabase
    void whatIsAddedWhileACaseIsGivenBackIsNotForgotten(TestDatabase where) throws IOException {
        try (Database database = Database.open(where.settings())) {
            at(0, database).register(RECORD, "https://record.example/fhir", "all");
            OutboxTurns turns = turns(1, database);
            for (int version = 1; version <= 200; version++) {
                int next = version;
                CompletableFuture<Void> adding =
                        CompletableFuture.runAsync(() -> add(0, "case/north/1", next, database));
                claimed(turns, true);
                turns.delivered(RECORD, "case/north/1", turns.due(RECORD, "case/north/1"));
                turns.finish(RECORD, "case/north/1");
                adding.join();
                boolean due = !turns.due(RECORD, "case/north/1").isEmpty();
                assertThat(claimed(turns, true).isPresent()).isEqualTo(due);
                turns.delivered(RECORD, "case/north/1", turns.due(RECORD, "case/north/1"));
                turns.finish(RECORD, "case/north/1");
            }
        }
    }

    @EachDatabase
    void aParkedCaseStaysParkedWhateverIsAddedUntilItIsReleased(TestDatabase where) throws IOException {
        try (Database database = Database.open(where.settings())) {
            at(0, database).register(RECORD, "https://record.example/fhir", "all");
            add(0, "case/north/1", 1, database);
            OutboxTurns turns = turns(1, database);
            claimed(turns, true);
            turns.park(RECORD, "case/north/1", "422: no");
            add(2, "case/north/1", 2, database);

            assertThat(claimed(turns(3, database), true)).isEmpty();
            assertThat(new OutboxStates(database).entries(RECORD, OutboxState.PARKED, 10))
                    .extracting(OutboxEntry::reason)
                    .containsExactly("422: no");
            assertThat(at(4, database).release(RECORD, "")).isEqualTo(1);
            assertThat(claimed(turns(5, database), true)).contains("case/north/1");
        }
    }

    @EachDatabase
    void aCaseThatFailedWaits(TestDatabase where) throws IOException {
        try (Database database = Database.open(where.settings())) {
            at(0, database).register(RECORD, "https://record.example/fhir", "all");
            add(0, "case/north/1", 1, database);
            claimed(turns(1, database), true);
            turns(1, database).tryLater(RECORD, "case/north/1", Duration.ofMinutes(5), "busy");

            assertThat(claimed(turns(5, database), true)).isEmpty();
            assertThat(turns(7, database).claim(RECORD, true, LEASE)).contains(new DueCase("case/north/1", 1));
        }
    }

    // A week without a destination: disk, and no more for the case that is recorded then.
    @EachDatabase
    void thousandsOfCasesWait(TestDatabase where) throws IOException {
        try (Database database = Database.open(where.settings())) {
            at(0, database).register(RECORD, "https://record.example/fhir", "all");
            database.transactions()
                    .executeWithoutResult(
                            status -> IntStream.range(0, 5000).forEach(it -> add(it, "case/north/" + it, 1, database)));

            assertThat(new OutboxStates(database).states())
                    .extracting(DestinationState::waitingCases)
                    .containsExactly(5000L);
            assertThat(claimed(turns(6000, database), false)).contains("case/north/4999");
            assertThat(claimed(turns(6000, database), true)).contains("case/north/0");
        }
    }

    private static Optional<String> claimed(OutboxTurns turns, boolean oldestFirst) {
        return turns.claim(RECORD, oldestFirst, LEASE).map(DueCase::caseKey);
    }

    private static void add(int minute, String caseKey, int version, Database database) {
        database.transactions()
                .executeWithoutResult(
                        status -> at(minute, database).add(caseKey, List.of(new DueResource("Flag", "a", version))));
    }

    private static Outbox at(int minute, Database database) {
        return new Outbox(database, clock(minute));
    }

    private static OutboxTurns turns(int minute, Database database) {
        return new OutboxTurns(database, clock(minute));
    }

    private static Clock clock(int minute) {
        return Clock.fixed(BEGIN.plus(Duration.ofMinutes(minute)), ZoneOffset.UTC);
    }
}
