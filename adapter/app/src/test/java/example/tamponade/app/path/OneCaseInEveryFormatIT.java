package example.tamponade.app.path;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.SampleCases;
import example.tamponade.app.Samples;
import example.tamponade.app.access.TestCaller;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.formats.Formats;
import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.ledger.ChainCheck;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.core.casefile.CaseFact;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.CaseId;
import example.tamponade.core.protocol.CareProtocol;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import tools.jackson.databind.JsonNode;

/** The whole way to the ledger, and the case folded from what the ledger gives back. */
class OneCaseInEveryFormatIT {

    private static final CaseId CASE = new CaseId("fernglade-hp", "FGL-2026-0117");
    private static final int EVENTS = 247;

    private final Formats formats =
            new Formats(CareProtocol.standard(), new Facilities(Map.of(), ZoneId.of("+05:45")), Clock.systemUTC());

    @EachDatabase
    void singleEventsGiveTheDerivedFacts(TestDatabase where) throws IOException {
        try (Database database = Database.open(where.settings());
                IntakeWriter writer = writer(database)) {
            EventPath path = new EventPath(writer);
            for (String event : new String(Samples.events("settled"), UTF_8).split("\n")) {
                Original original = Original.of(event.getBytes(UTF_8));
                Piece piece = new Piece(
                        InputFormat.EVENT,
                        "the event",
                        original,
                        formats.reader().read(original));
                assertThat(path.take(TestCaller.SENDER, List.of(piece)).get(0)).isInstanceOf(Receipt.Stored.class);
            }
            check(database);
        }
    }

    @EachDatabase
    void linesOfEventsGiveTheSame(TestDatabase where) throws IOException {
        takeAndCheck(where, InputFormat.EVENT, Samples.events("settled"));
    }

    @EachDatabase
    void aRegisterGivesTheSame(TestDatabase where) throws IOException {
        takeAndCheck(where, InputFormat.REGISTER, Samples.register("settled"));
    }

    @EachDatabase
    void aRegisterOfASpreadsheetGivesTheSame(TestDatabase where) throws IOException {
        takeAndCheck(where, InputFormat.REGISTER, Samples.register("settled-spreadsheet"));
    }

    @EachDatabase
    void messagesGiveTheSame(TestDatabase where) throws IOException {
        takeAndCheck(where, InputFormat.MESSAGE, Samples.message("settled"));
    }

    @EachDatabase
    void responsesToTheFormGiveTheSame(TestDatabase where) throws IOException {
        takeAndCheck(where, InputFormat.RESPONSE, Samples.response("settled.ndjson"));
    }

    private void takeAndCheck(TestDatabase where, InputFormat format, byte[] input) throws IOException {
        try (Database database = Database.open(where.settings());
                IntakeWriter writer = writer(database);
                Pieces pieces = formats.of(format).open(new ByteArrayInputStream(input))) {
            new EventPath(writer)
                    .takeAll(
                            TestCaller.SENDER,
                            pieces,
                            (piece, receipt) ->
                                    assertThat(receipt).as(piece.place()).isInstanceOf(Receipt.Stored.class));
            check(database);
        }
    }

    private static IntakeWriter writer(Database database) {
        return new IntakeWriter(database, new Ledger(database), new Quarantine(database), Clock.systemUTC(), 4000);
    }

    // The expected losses, indexes and volumes were computed by another program (samples/README.md).
    private static void check(Database database) {
        assertThat(new Ledger(database).size()).isEqualTo(EVENTS);
        CaseFile file = file(database);
        JsonNode expected = Samples.expected("settled");
        assertThat(last(file, FactKind.CUMULATIVE_BLOOD_LOSS))
                .isEqualByComparingTo(lastOf(expected.path("bloodLoss"), "cumulativeBloodLossMl"));
        assertThat(last(file, FactKind.SHOCK_INDEX))
                .isEqualByComparingTo(lastOf(expected.path("shockIndex"), "shockIndex"));
        assertThat(SampleCases.words(file)).isEqualTo(SampleCases.words(SampleCases.file("settled")));
        ChainCheck chain = new ChainCheck(database);
        assertThat(chain.caseKeys().stream().flatMap(it -> chain.check(it, List.of()).faults().stream()))
                .isEmpty();
    }

    private static BigDecimal lastOf(JsonNode series, String property) {
        return series.get(series.size() - 1).path(property).decimalValue();
    }

    private static BigDecimal last(CaseFile file, FactKind kind) {
        List<BigDecimal> values = new ArrayList<>();
        for (CaseFact fact : file.facts()) {
            if (fact instanceof DerivedValue value
                    && value.kind() == kind
                    && value.value() instanceof FactValue.Amount amount) {
                values.add(amount.rounded());
            }
        }
        return values.get(values.size() - 1);
    }

    private static CaseFile file(Database database) {
        return CaseFile.of(
                CASE,
                CareProtocol.standard(),
                new Ledger(database)
                        .entries(CaseKey.of(CASE), 0, Long.MAX_VALUE).stream()
                                .map(Ledger.Entry::event)
                                .toList());
    }
}
