package example.tamponade.app.crash;

import example.tamponade.app.database.TestDatabase;
import java.sql.SQLException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.json.JsonMapper;

/** Senders at work while something is done to the adapter or to its database; afterwards everything is compared. */
final class Trial {

    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    private static final Duration LONGEST_RECOVERY = Duration.ofMinutes(2);

    private final AdapterProcess adapter;
    private final TestDatabase database;
    private final long seed;
    private final Tally tally = new Tally();
    private Senders senders;

    Trial(AdapterProcess adapter, TestDatabase database, long seed) {
        this.adapter = adapter;
        this.database = database;
        this.seed = seed;
    }

    /** What is done meanwhile. */
    interface Harm {
        void happen(Trial trial);
    }

    /**
     * How it went.
     *
     * @param faults what went wrong, in words; empty when nothing did
     */
    record Outcome(Tally tally, Comparison comparison, List<String> faults) {}

    Outcome run(Harm harm) throws SQLException {
        adapter.serve();
        try {
            try (Senders started = Senders.start(seed, adapter.http(), tally)) {
                senders = started;
                harm.happen(this);
            }
            return outcome();
        } finally {
            adapter.kill();
        }
    }

    AdapterProcess adapter() {
        return adapter;
    }

    TestDatabase database() {
        return database;
    }

    Senders senders() {
        return senders;
    }

    /** How many events are acknowledged and not on record yet. */
    long behind() {
        return MAPPER.readTree(adapter.http().get("/intake").body())
                .path("behindRecord")
                .asLong();
    }

    Tally tally() {
        return tally;
    }

    /** Returns when events are acknowledged again. */
    void awaitAcknowledgements() {
        int before = tally.acknowledged().size();
        Waiting.until(
                LONGEST_RECOVERY,
                "events are acknowledged again",
                () -> tally.acknowledged().size() > before + 5);
    }

    private Outcome outcome() throws SQLException {
        List<String> faults = new ArrayList<>();
        getEveryCase(faults);
        getEveryCorrection(faults);
        Comparison comparison = Comparison.of(tally, database);
        if (!comparison.whole()) {
            faults.add("the ledger is not what was acknowledged");
        }
        if (comparison.behind() > 0) {
            faults.add("what was read is not on record");
        }
        tally.answers().keySet().stream()
                .filter(it -> !List.of(0, 200, 201, 429, 503, 507).contains(it))
                .forEach(it -> faults.add("an answer with status " + it));
        AdapterProcess.Ended verify = adapter.run("verify");
        if (verify.code() != 0) {
            faults.add("verify ended with " + verify.code() + " " + verify.errors());
        }
        return new Outcome(tally, comparison, faults);
    }

    private void getEveryCorrection(List<String> faults) {
        Http http = adapter.http();
        for (String entry : tally.corrected()) {
            String state = MAPPER.readTree(http.get("/quarantine/" + entry).body())
                    .path("state")
                    .asString();
            if (!state.equals("taken")) {
                faults.add("entry " + entry + " was corrected and is " + state);
            }
        }
    }

    private void getEveryCase(List<String> faults) {
        Http http = adapter.http();
        MAPPER.readTree(http.get("/cases").body()).forEach(it -> {
            int status = http.get("/cases/" + it.asString()).status();
            if (status != 200) {
                faults.add("case " + it.asString() + " is answered with " + status);
            }
        });
    }
}
