package example.tamponade.app.delivery;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.CommandRun;
import example.tamponade.app.Samples;
import example.tamponade.app.crash.Waiting;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.serve.RunningServer;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.junit.jupiter.api.Test;

/** What goes on record arrives at a FHIR server once and in order, whatever happens on the way. */
class DeliveryIT {

    private static final Duration LONGEST = Duration.ofMinutes(1);
    private static final String REFERRED = "case/marrowby-cross/MRX-2026-0048";
    private static final List<String> LINES =
            Arrays.asList(new String(Samples.events("referred"), StandardCharsets.UTF_8).split("\n"));

    // How often each fault is tried; more of them by hand.
    private static final int ROUNDS = Integer.getInteger("delivery.rounds", 1);

    @EachDatabase
    void aDestinationEndsWithWhatIsOnRecord(TestDatabase database) {
        try (FhirStore store = FhirStore.start();
                RunningServer server = RunningServer.start(database, address(store.port()))) {
            for (String sample : Samples.CASES) {
                server.post("application/x-ndjson", Samples.events(sample));
            }
            waitUntilDelivered(server);

            assertThat(store.latest()).hasSizeGreaterThan(5000);
            Arrival.assertArrived(database, store);
        }
    }

    @EachDatabase
    void aDestinationThatIsNewGetsWhatWasThereBefore(TestDatabase database) {
        try (RunningServer server = RunningServer.start(database)) {
            server.post("application/x-ndjson", Samples.events("referred"));
            Waiting.until(
                    LONGEST, "the record", () -> server.get("/ledger").body().contains("\"casesBehind\":0"));
        }
        try (FhirStore store = FhirStore.start();
                RunningServer server = RunningServer.start(
                        database, address(store.port()), "--tamponade.destinations.record.batch=50")) {
            waitUntilDelivered(server);
            Arrival.assertArrived(database, store);
            assertThat(store.transactions()).isGreaterThan(20);
        }
    }

    private static Stream<FhirStore.Other> answers() {
        return Stream.of(
                FhirStore.Other.status(500),
                FhirStore.Other.status(502),
                new FhirStore.Other(503, "text/plain", "busy", "1"),
                new FhirStore.Other(429, "text/plain", "busy", "1"),
                new FhirStore.Other(503, "text/plain", "busy", "Wed, 21 Oct 2015 07:28:00 GMT"),
                FhirStore.Other.status(401),
                FhirStore.Other.status(404),
                FhirStore.Other.status(409),
                FhirStore.Other.status(412),
                FhirStore.Other.status(413),
                new FhirStore.Other(200, "text/html", "<html><body>Welcome to the network</body></html>", ""),
                new FhirStore.Other(200, "application/fhir+json", "{\"resourceType\":\"Bundle\",\"type\":\"trans", ""),
                new FhirStore.Other(
                        200,
                        "application/fhir+json",
                        "{\"resourceType\":\"Bundle\",\"type\":\"transaction-response\"}",
                        ""),
                new FhirStore.Other(200, "application/json", "[1]", ""),
                new FhirStore.Other(302, "text/plain", "", ""));
    }

    // One part of the case goes out under each fault; every fault comes once a round.
    @Test
    void nothingIsLostDoubledOrOutOfOrderWhateverFails() throws IOException {
        for (int round = 0; round < ROUNDS; round++) {
            try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                    FhirStore store = FhirStore.start();
                    FaultyNetwork network = FaultyNetwork.to(store.port());
                    RunningServer server = RunningServer.start(
                            database,
                            address(network.port()),
                            "--tamponade.destinations.record.pause=50ms",
                            "--tamponade.destinations.record.patience=400ms")) {
                List<Runnable> faults = new ArrayList<>();
                Stream.of(FaultyNetwork.Fault.values()).forEach(it -> faults.add(() -> network.fail(it)));
                answers().forEach(it -> faults.add(() -> store.answer(it)));
                faults.add(() -> store.answer(
                        Collections.nCopies(5, FhirStore.Other.status(503)).toArray(FhirStore.Other[]::new)));
                long seed = new Random().nextLong();
                Collections.shuffle(faults, new Random(seed));
                int part = LINES.size() / faults.size();
                for (int i = 0; i < faults.size(); i++) {
                    faults.get(i).run();
                    send(server, i * part, i == faults.size() - 1 ? LINES.size() : (i + 1) * part);
                    waitUntilDelivered(server);
                    assertThat(network.isWorkingAgain()).isTrue();
                }
                Arrival.assertArrived(database, store);
            }
        }
    }

    @Test
    void whatIsRefusedParksItsCaseAloneUntilItIsReleased() {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                FhirStore store = FhirStore.start();
                RunningServer server = RunningServer.start(database, address(store.port()))) {
            store.answerBy(bundle -> text(bundle).contains(REFERRED.substring("case/".length()))
                    ? store.problem(422, "the balloon's maker is not in our register")
                    : null);
            server.post("application/x-ndjson", Samples.events("referred"));
            server.post("application/x-ndjson", Samples.events("settled"));
            Waiting.until(
                    LONGEST,
                    "all but the refused case is delivered",
                    () -> server.get("/ledger").body().contains("\"casesBehind\":0")
                            && server.get("/deliveries").body().contains("\"waitingCases\":0"));

            assertThat(server.get("/deliveries").body()).contains("\"parkedCases\":1", "\"problem\":\"\"");
            assertThat(server.get("/deliveries/record?state=parked").body())
                    .contains(REFERRED, "422: the balloon's maker is not in our register", "release the case");
            assertThat(store.latest().values()).anyMatch(it -> it.contains("FGL-2026-0117"));
            assertThat(command(database, "list").code()).isEqualTo(2);
            assertThat(command(database, "show", "record", "--state", "parked").out())
                    .contains(REFERRED);

            store.answerBy(bundle -> null);
            assertThat(command(database, "release", "record", "--case", REFERRED)
                            .out())
                    .contains("1 cases");
            waitUntilDelivered(server);
            Arrival.assertArrived(database, store);
            assertThat(command(database, "list").code()).isZero();
        }
    }

    @Test
    void aDestinationThatMovesIsSentEverythingThere() {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            for (int move = 0; move < 2; move++) {
                try (FhirStore store = FhirStore.start();
                        RunningServer server = RunningServer.start(database, address(store.port()))) {
                    send(server, 0, LINES.size());
                    waitUntilDelivered(server);
                    Arrival.assertArrived(database, store);
                }
            }
        }
    }

    // What a busy server says to one case must not keep the others from it.
    @Test
    void aCaseThatTheServerAlwaysFailsAtKeepsNoOtherFromIt() {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                FhirStore store = FhirStore.start();
                RunningServer server = RunningServer.start(database, address(store.port()))) {
            store.answerBy(bundle ->
                    text(bundle).contains(REFERRED.substring("case/".length())) ? FhirStore.Other.status(500) : null);
            for (String sample : Samples.CASES) {
                server.post("application/x-ndjson", Samples.events(sample));
            }
            Waiting.until(
                    LONGEST,
                    "all but one case is delivered",
                    () -> server.get("/ledger").body().contains("\"casesBehind\":0")
                            && server.get("/deliveries").body().contains("\"waitingCases\":1"));
            assertThat(server.get("/deliveries/record").body()).contains(REFERRED, "500");
        }
    }

    @Test
    void whatSomebodyElseChangedIsReadAgainAndPutRight() {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                FhirStore store = FhirStore.start();
                RunningServer server = RunningServer.start(database, address(store.port()))) {
            send(server, 0, 20);
            waitUntilDelivered(server);
            store.latest().forEach(store::change);
            send(server, 20, LINES.size());
            waitUntilDelivered(server);

            assertThat(Arrival.differences(Arrival.onRecord(database), store.latest()))
                    .isEmpty();
        }
    }

    @Test
    void aServerThatTakesLittleAtOnceIsSentLess() {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                FhirStore store = FhirStore.start();
                RunningServer server = RunningServer.start(database, address(store.port()))) {
            store.answerBy(bundle -> bundle.getEntry().size() > 60 ? FhirStore.Other.status(413) : null);
            send(server, 0, LINES.size());
            waitUntilDelivered(server);

            assertThat(store.largest()).isLessThanOrEqualTo(60);
            Arrival.assertArrived(database, store);
        }
    }

    @Test
    void aServerThatLostEverythingIsSentItAgain() {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                FhirStore store = FhirStore.start();
                RunningServer server = RunningServer.start(database, address(store.port()))) {
            send(server, 0, LINES.size());
            waitUntilDelivered(server);
            store.lose();
            assertThat(server.post("/deliveries/record/again", "application/json", new byte[0])
                            .statusCode())
                    .isEqualTo(200);
            waitUntilDelivered(server);

            Arrival.assertArrived(database, store);
        }
    }

    @Test
    void whatWentOnRecordSinceAMomentIsSentAgain() {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                FhirStore store = FhirStore.start();
                RunningServer server = RunningServer.start(database, address(store.port()))) {
            send(server, 0, 100);
            waitUntilDelivered(server);
            Map<String, List<String>> before = store.versions();
            Instant moment = Instant.now();
            send(server, 100, LINES.size());
            waitUntilDelivered(server);
            store.goBackTo(before);
            assertThat(server.post("/deliveries/record/again?since=tonight", "application/json", new byte[0]))
                    .satisfies(it -> assertThat(it.statusCode()).isEqualTo(400))
                    .satisfies(it -> assertThat(it.body()).contains("tonight"));
            int all = Arrival.onRecord(database).size();
            String answer = server.post("/deliveries/record/again?since=" + moment, "application/json", new byte[0])
                    .body();
            waitUntilDelivered(server);

            assertThat(Integer.parseInt(answer.replaceAll("\\D", ""))).isBetween(100, all - 100);
            Arrival.assertArrived(database, store);
        }
    }

    @EachDatabase
    void aDestinationThatIsForgottenCollectsNothingAndIsNewWhenItComesBack(TestDatabase database) {
        try (FhirStore store = FhirStore.start()) {
            try (RunningServer server = RunningServer.start(database, address(store.port()))) {
                send(server, 0, 60);
                waitUntilDelivered(server);
            }
            CommandRun forgotten = command(database, "forget", "record");
            assertThat(forgotten.code()).as(forgotten.err()).isZero();
            store.lose();
            try (RunningServer server = RunningServer.start(database)) {
                send(server, 60, LINES.size());
                assertThat(server.get("/deliveries").body()).isEqualTo("[]");
            }
            assertThat(store.latest()).isEmpty();
            assertThat(command(database, "forget", "record").err()).contains("record");
            try (RunningServer server = RunningServer.start(database, address(store.port()))) {
                waitUntilDelivered(server);
                Arrival.assertArrived(database, store);
            }
        }
    }

    @Test
    void aViewIsDeliveredAndWhatWasDeliveredOnceIsKeptUpToDate() {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                FhirStore store = FhirStore.start();
                RunningServer server = RunningServer.start(
                        database, address(store.port()), "--tamponade.destinations.record.view=handover")) {
            for (int from = 0; from < LINES.size(); from += 20) {
                send(server, from, Math.min(LINES.size(), from + 20));
                waitUntilDelivered(server);
            }
            Map<String, String> record = Arrival.onRecord(database);
            Map<String, String> arrived = store.latest();
            assertThat(arrived).hasSizeBetween(100, record.size() / 2);
            // A warning that ended is not in the view any more, and does not stand at the destination.
            assertThat(standing(arrived)).isNotEmpty().isEqualTo(standing(record));
        }
    }

    @Test
    void aPseudonymisedDestinationIsKeptUpToDateAndNamesNobody() throws IOException {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                FhirStore store = FhirStore.start()) {
            Path key = Files.write(
                    database.settings().folder().resolve("key"),
                    "an invented key, for this test alone".getBytes(UTF_8));
            try (RunningServer server = RunningServer.start(
                    database,
                    address(store.port()),
                    "--tamponade.pseudonyms=" + key,
                    "--tamponade.destinations.record.pseudonymised=true")) {
                for (int from = 0; from < LINES.size(); from += 50) {
                    send(server, from, Math.min(LINES.size(), from + 50));
                    waitUntilDelivered(server);
                }
                Map<String, String> arrived = store.latest();
                Bundle form = FhirContext.forR4Cached()
                        .newJsonParser()
                        .parseResource(
                                Bundle.class,
                                server.get("/cases/marrowby-cross/MRX-2026-0048?pseudonymised=true")
                                        .body());
                assertThat(form.getEntry()).hasSizeGreaterThan(1000);
                form.getEntry()
                        .forEach(it -> assertThat(arrived)
                                .containsKey(it.getResource().fhirType() + "/"
                                        + it.getResource().getIdPart()));
                assertThat(arrived.toString())
                        .doesNotContain(
                                "MRX-2026-0048", "marrowby", "Thornveil", "Quillhaven", "2026-03-03", "mx-ba-07");
            }
        }
    }

    @Test
    void withoutAKeyThereIsNoPseudonymisedForm() {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            assertThatThrownBy(() -> RunningServer.start(
                                    database, address(1), "--tamponade.destinations.record.pseudonymised=true")
                            .close())
                    .rootCause()
                    .hasMessageContaining("tamponade.pseudonyms");
            try (RunningServer server = RunningServer.start(database)) {
                assertThat(server.get("/cases/a/b?pseudonymised=true")).satisfies(it -> {
                    assertThat(it.statusCode()).isEqualTo(400);
                    assertThat(it.body()).contains("tamponade.pseudonyms");
                });
            }
        }
    }

    @Test
    void aDestinationGetsItsTypesAndFacilitiesAlone() {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                FhirStore store = FhirStore.start();
                RunningServer server = RunningServer.start(
                        database,
                        address(store.port()),
                        "--tamponade.destinations.record.facilities=marrowby-cross",
                        "--tamponade.destinations.record.types=Patient,Flag")) {
            server.post("application/x-ndjson", Samples.events("referred"));
            server.post("application/x-ndjson", Samples.events("settled"));
            waitUntilDelivered(server);

            assertThat(store.latest().keySet())
                    .allMatch(it -> it.startsWith("Patient/") || it.startsWith("Flag/"))
                    .anyMatch(it -> it.startsWith("Flag/"));
            assertThat(store.latest().keySet().stream().filter(it -> it.startsWith("Patient/")))
                    .hasSize(1);
        }
    }

    @Test
    void aCaseThatTheMotherDoesNotShareStaysHereUntilSheDoes() {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                FhirStore store = FhirStore.start();
                RunningServer server = RunningServer.start(database, address(store.port()))) {
            LINES.forEach(it -> server.post(it.replace("\"consent\":\"deferred\"", "\"consent\":\"refused\"")));
            Waiting.until(
                    LONGEST,
                    "the case is parked",
                    () -> server.get("/deliveries/record?state=parked").body().contains("refused that her record"));

            assertThat(store.latest().keySet()).noneMatch(it -> it.startsWith("Patient/"));

            // She agrees later: what said that she had not been asked is corrected.
            String opening = LINES.stream()
                    .filter(it -> it.contains("\"case-opened\""))
                    .findFirst()
                    .orElseThrow();
            String agreed = opening.replace("\"consent\":\"deferred\"", "\"consent\":\"given\"")
                    .replaceFirst(
                            "\"eventId\":\"([^\"]*)\"",
                            "\"eventId\":\"0c0e5e17-0000-4000-8000-000000000001\",\"corrects\":\"$1\"");
            assertThat(server.post(agreed).statusCode()).isEqualTo(201);
            waitUntilDelivered(server);
            Arrival.assertArrived(database, store);
        }
    }

    // A conditional reference: HL7 FHIR R4, RESTful API, 3.1.0.11.2.
    @Test
    void aMotherWhomTheDestinationKnowsIsPointedToByHerIdentifierOnceThereIsOne() {
        String line = LINES.stream()
                .filter(it -> it.contains("\"case-opened\""))
                .findFirst()
                .orElseThrow();
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                FhirStore store = FhirStore.start();
                RunningServer server = RunningServer.start(
                        database,
                        address(store.port()),
                        "--tamponade.destinations.record.mother-by=urn:example:national")) {
            server.post("application/x-ndjson", Samples.events("referred"));
            Waiting.until(
                    LONGEST,
                    "the case is parked",
                    () -> server.get("/deliveries/record?state=parked")
                            .body()
                            .contains("no identifier of the system in mother-by"));

            String corrected = line.replace(
                            "\"identifiers\":[",
                            "\"identifiers\":[{\"system\":\"urn:example:national\",\"value\":\"N 7\"},")
                    .replaceFirst(
                            "\"eventId\":\"([^\"]*)\"",
                            "\"eventId\":\"0c0e5e17-0000-4000-8000-000000000002\",\"corrects\":\"$1\"");
            assertThat(server.post(corrected).statusCode()).isEqualTo(201);
            waitUntilDelivered(server);

            assertThat(store.latest().keySet()).noneMatch(it -> it.startsWith("Patient/"));
            assertThat(store.latest().entrySet())
                    .filteredOn(it -> it.getKey().startsWith("MedicationAdministration/"))
                    .isNotEmpty()
                    .allMatch(it -> it.getValue().contains("\"Patient?identifier=urn:example:national|N%207\""));
        }
    }

    @Test
    void twoAdaptersOnOneDatabaseDeliverEachCaseInOrder() {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.POSTGRESQL);
                FhirStore store = FhirStore.start();
                RunningServer one = RunningServer.start(database, address(store.port()));
                RunningServer other = RunningServer.start(database, address(store.port()))) {
            IntStream.range(0, LINES.size()).forEach(it -> (it % 2 == 0 ? one : other).post(LINES.get(it)));
            waitUntilDelivered(one);
            waitUntilDelivered(other);

            Arrival.assertArrived(database, store);
        }
    }

    @Test
    void anAddressThatCannotBeMeantIsRefusedWithTheRemedy() {
        String setting = "--tamponade.destinations.record.address=";
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            for (String clear : List.of(
                    "http://record.example/fhir",
                    "mllp://monitor.example:2576",
                    "kafka://broker.example:9092/record")) {
                assertThatThrownBy(() -> RunningServer.start(database, setting + clear))
                        .hasRootCauseMessage(
                                "tamponade.destinations.record.address cannot be used; use https, mllps or a"
                                        + " topic with security.protocol in its properties, or set unencrypted where something"
                                        + " else encrypts the way there");
            }
            for (String other : List.of(
                    "ftp://record.example/fhir", "https:/fhir", "mllps://monitor.example", "kafka://127.0.0.1:9092")) {
                assertThatThrownBy(() -> RunningServer.start(database, setting + other))
                        .rootCause()
                        .hasMessageContaining("tamponade.destinations.record.address cannot be used; ");
            }
        }
    }

    private static void send(RunningServer server, int from, int to) {
        byte[] lines = String.join("\n", LINES.subList(from, to)).getBytes(StandardCharsets.UTF_8);
        assertThat(server.post("application/x-ndjson", lines).statusCode()).isLessThan(300);
    }

    private static void waitUntilDelivered(RunningServer server) {
        Waiting.until(
                LONGEST,
                "the record is delivered",
                () -> server.get("/ledger").body().contains("\"casesBehind\":0")
                        && server.get("/deliveries").body().contains("\"resources\":0"));
    }

    private static String address(int port) {
        return "--tamponade.destinations.record.address=http://127.0.0.1:" + port + "/fhir";
    }

    private static CommandRun command(TestDatabase database, String... arguments) {
        List<String> command = new ArrayList<>(List.of("deliveries"));
        command.addAll(List.of(arguments));
        command.addAll(database.commandOptions());
        return CommandRun.of(command.toArray(String[]::new));
    }

    private static Map<String, String> standing(Map<String, String> resources) {
        Map<String, String> standing = new TreeMap<>();
        resources.forEach((name, json) -> {
            if (name.startsWith("Flag/") && json.contains("\"status\":\"active\"")) {
                standing.put(name, "active");
            }
        });
        return standing;
    }

    private static String text(Bundle bundle) {
        return FhirContext.forR4Cached().newJsonParser().encodeResourceToString(bundle);
    }
}
