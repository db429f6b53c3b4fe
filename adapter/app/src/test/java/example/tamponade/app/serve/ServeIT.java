package example.tamponade.app.serve;

import static java.nio.charset.StandardCharsets.UTF_8;
import static java.time.format.DateTimeFormatter.ISO_OFFSET_DATE_TIME;
import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.Samples;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.records.RecordParts;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.zip.GZIPInputStream;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Resource;

class ServeIT {

    private static final String CASE = "/cases/fernglade-hp/FGL-2026-0117";

    @EachDatabase
    void takesACaseLineByLineAndServesItsResources(TestDatabase database) {
        try (RunningServer server = RunningServer.start(database)) {
            HttpResponse<String> answer = server.post("application/x-ndjson", firstLines("settled", 60));

            assertThat(answer.statusCode()).isEqualTo(200);
            assertThat(answer.body()).contains("\"stored\":60", "\"refused\":0");
            assertThat(server.get("/cases").body()).contains("fernglade-hp/FGL-2026-0117");
            for (String form : List.of("collection", "document", "transaction")) {
                Bundle bundle = bundle(server.get(CASE + "?as=" + form));
                assertThat(bundle.getType().toCode()).isEqualTo(form);
                assertThat(RecordParts.shared().conformance().check(bundle).errors())
                        .isEmpty();
            }
        }
    }

    @EachDatabase
    void givesACaseAsAPageForABrowser(TestDatabase database) {
        try (RunningServer server = RunningServer.start(database)) {
            server.post("application/x-ndjson", firstLines("settled", 60));
            HttpResponse<byte[]> answer = server.get(CASE + "?as=page&view=handover", "Accept", "text/html");
            assertThat(answer.statusCode()).isEqualTo(200);
            assertThat(answer.headers().firstValue("Content-Type")).contains("text/html;charset=UTF-8");
            assertThat(answer.headers().firstValue("Content-Security-Policy").orElseThrow())
                    .contains("default-src 'none'");
            assertThat(new String(answer.body(), UTF_8))
                    .contains("Handover of case FGL-2026-0117", "not a medical device");
            HttpResponse<byte[]> pdf = server.get(CASE + "?as=pdf&view=handover", "Accept", "application/pdf");
            assertThat(pdf.headers().firstValue("Content-Type")).contains("application/pdf");
            assertThat(new String(pdf.body(), 0, 5, UTF_8)).isEqualTo("%PDF-");
            assertThat(server.get("/facilities/fernglade-hp?as=page").statusCode())
                    .isEqualTo(400);
        }
    }

    @EachDatabase
    void keepsWhatItAcknowledgedOverARestart(TestDatabase database) {
        String before;
        try (RunningServer server = RunningServer.start(database)) {
            server.post("application/x-ndjson", firstLines("settled", 20));
            before = server.get(CASE).body();
        }
        try (RunningServer server = RunningServer.start(database)) {
            assertThat(server.get(CASE).body()).isEqualTo(before);
            assertThat(server.post("application/x-ndjson", firstLines("settled", 20))
                            .body())
                    .contains("\"stored\":0", "\"repeated\":20");
            assertThat(server.get(CASE).body()).isEqualTo(before);
        }
    }

    @EachDatabase
    void reissuesWhatALateReadingChanges(TestDatabase database) {
        List<String> losses = lines("settled").stream()
                .filter(it -> it.contains("\"blood-loss\"") && it.contains("\"increment\""))
                .limit(2)
                .toList();
        try (RunningServer server = RunningServer.start(database)) {
            server.post(losses.get(1));
            server.post(losses.get(0));

            List<Observation> totals = bundle(server.get(CASE)).getEntry().stream()
                    .map(Bundle.BundleEntryComponent::getResource)
                    .filter(Observation.class::isInstance)
                    .map(Observation.class::cast)
                    .filter(it -> it.getCode().getCodingFirstRep().getCode().equals("cumulative-blood-loss"))
                    .toList();

            assertThat(totals.stream().map(Observation::getStatus).collect(Collectors.toSet()))
                    .containsExactlyInAnyOrder(
                            Observation.ObservationStatus.FINAL, Observation.ObservationStatus.AMENDED);
        }
    }

    // The same number, the same hour, two mothers.
    @EachDatabase
    void twoFacilitiesThatNumberAlikeHaveTwoCases(TestDatabase database) {
        String here = String.join("\n", lines("settled"));
        String there = here.replace("fernglade-hp", "elsewhere-hp")
                .replaceAll("\"(eventId|corrects|retracts)\":\"........", "\"$1\":\"0e15e0e1")
                .replaceAll("\"name\":\"[^\"]*\"", "\"name\":\"Another Mother\"");
        String alone;
        try (RunningServer server = RunningServer.start(database)) {
            server.post("application/x-ndjson", here.getBytes(UTF_8));
            alone = server.get(CASE).body();
            assertThat(server.post("application/x-ndjson", there.getBytes(UTF_8))
                            .body())
                    .contains("\"stored\":247", "\"refused\":0");

            assertThat(server.get("/cases").body())
                    .contains("elsewhere-hp/FGL-2026-0117", "fernglade-hp/FGL-2026-0117");
            assertThat(server.get(CASE).body()).isEqualTo(alone);
            Set<String> ofOther = addresses(bundle(server.get("/cases/elsewhere-hp/FGL-2026-0117")));
            Set<String> shared = addresses(bundle(server.get(CASE)));
            assertThat(ofOther).hasSizeGreaterThan(1000);
            shared.retainAll(ofOther);
            // The adapter itself, which derived what is derived in both.
            assertThat(shared).singleElement().asString().startsWith("Device/");
        }
    }

    private static Set<String> addresses(Bundle bundle) {
        return bundle.getEntry().stream()
                .map(it -> it.getResource().fhirType() + "/"
                        + it.getResource().getIdElement().getIdPart())
                .collect(Collectors.toCollection(TreeSet::new));
    }

    @EachDatabase
    void answersEachEventWithItsOwnStatus(TestDatabase database) {
        String event = lines("settled").get(5);
        String other =
                event.replaceFirst("\"recordedBy\":\\{\"id\":\"[^\"]*\"", "\"recordedBy\":{\"id\":\"someone-else\"");
        try (RunningServer server = RunningServer.start(database)) {
            assertThat(server.post(event).statusCode()).isEqualTo(201);
            assertThat(server.post(event).statusCode()).isEqualTo(200);
            assertThat(server.post(other).statusCode()).isEqualTo(409);
            assertThat(server.post("{").statusCode()).isEqualTo(422);
            assertThat(server.get("/cases/nowhere/nobody").statusCode()).isEqualTo(404);
            assertThat(server.post(Samples.retractionAlone("LATE-1")).statusCode())
                    .isEqualTo(201);
            assertThat(server.get("/cases/fernglade-hp/LATE-1?as=document").body())
                    .contains("that have not come");
            assertThat(server.get(CASE + "?as=scroll").statusCode()).isEqualTo(400);
            assertThat(server.get("/schema").body()).contains("\"blood-loss\"");
            assertThat(server.get("/").body()).contains("not a medical device");
        }
    }

    // Content negotiation and errors: HL7 FHIR R4, RESTful API, 3.1.0.1.11 and 3.1.0.1.5; RFC 9110, 15.5.7.
    @EachDatabase
    void speaksFhirWhereverItServesResources(TestDatabase database) throws IOException {
        try (RunningServer server = RunningServer.start(database)) {
            server.post("application/x-ndjson", firstLines("settled", 60));
            for (String path : List.of(CASE, "/facilities/fernglade-hp")) {
                for (String accept :
                        List.of("application/fhir+json", "application/json", "*/*", "text/html, */*;q=0.1")) {
                    assertThat(server.get(path, "Accept", accept).statusCode()).isEqualTo(200);
                }
                assertThat(outcome(server.get(path, "Accept", "application/fhir+xml"), 406))
                        .contains("application/fhir+json");
                assertThat(outcome(server.get(path + "?as=scroll", "Accept", "*/*"), 400))
                        .contains("transaction");
                assertThat(outcome(server.get(path + "x", "Accept", "*/*"), 404))
                        .contains("lists them");
            }
            assertThat(server.get("/facilities").body()).isEqualTo("[\"fernglade-hp\"]");
            assertThat(outcome(server.get("/facilities/fernglade-hp?as=document", "Accept", "*/*"), 400))
                    .contains("no document");
            int whole = bundle(server.get(CASE)).getEntry().size();
            int course = bundle(server.get(CASE + "?view=course")).getEntry().size();
            int handover = bundle(server.get(CASE + "?view=handover&as=document"))
                    .getEntry()
                    .size();
            assertThat(course).isGreaterThan(handover).isLessThan(whole * 2 / 3);
            assertThat(outcome(server.get(CASE + "?view=scroll", "Accept", "*/*"), 400))
                    .contains("full, course or handover");
            Bundle facility = bundle(server.get("/facilities/fernglade-hp?as=transaction"));
            assertThat(RecordParts.shared().conformance().check(facility).errors())
                    .isEmpty();

            HttpResponse<byte[]> packed = server.get(CASE, "Accept-Encoding", "gzip");
            assertThat(packed.headers().firstValue("Content-Encoding")).contains("gzip");
            String text =
                    new String(new GZIPInputStream(new ByteArrayInputStream(packed.body())).readAllBytes(), UTF_8);
            assertThat(text).isEqualTo(server.get(CASE).body()).hasSizeGreaterThan(5 * packed.body().length);
        }
    }

    private static String outcome(HttpResponse<byte[]> answer, int status) {
        assertThat(answer.statusCode()).isEqualTo(status);
        assertThat(answer.headers().firstValue("Content-Type").orElse("")).startsWith("application/fhir+json");
        return FhirContext.forR4Cached()
                .newJsonParser()
                .parseResource(OperationOutcome.class, new String(answer.body(), UTF_8))
                .getIssueFirstRep()
                .getDiagnostics();
    }

    @EachDatabase
    void tellsARefusalAsAnOperationOutcomeOfItsProfile(TestDatabase database) {
        String event = lines("settled").get(5).replaceFirst("\"data\":\\{", "\"data\":{\"colour\":\"red\",");
        try (RunningServer server = RunningServer.start(database)) {
            HttpResponse<String> answer = server.post(event);

            OperationOutcome outcome =
                    FhirContext.forR4Cached().newJsonParser().parseResource(OperationOutcome.class, answer.body());
            assertThat(answer.statusCode()).isEqualTo(422);
            assertThat(outcome.getIssueFirstRep().getExpression().get(0).getValue())
                    .isEqualTo("data.colour");
            assertThat(outcome.getIssueFirstRep().getDiagnostics()).contains("remove it");
            assertThat(RecordParts.shared()
                            .conformance()
                            .check((Resource) outcome)
                            .errors())
                    .isEmpty();
        }
    }

    @EachDatabase
    void raisesWhatTimeAloneBringsAndTakesItBack(TestDatabase database) {
        OffsetDateTime inserted =
                OffsetDateTime.now(ZoneOffset.UTC).minusMinutes(40).truncatedTo(ChronoUnit.SECONDS);
        try (RunningServer server = RunningServer.start(database)) {
            server.post(event(
                    1,
                    "tamponade-inserted",
                    inserted,
                    "{\"device\":{\"kind\":\"condom-catheter\"},\"positionConfirmed\":true}"));
            server.post(event(
                    2, "balloon-filled", inserted.plusMinutes(1), "{\"chamber\":\"tamponade\",\"volumeMl\":300}"));
            Flag missed = controlFlag(server);
            assertThat(missed.getStatus()).isEqualTo(Flag.FlagStatus.ACTIVE);
            assertThat(missed.getPeriod().getStart().toInstant())
                    .isEqualTo(inserted.plusMinutes(15).toInstant());
        }
        try (RunningServer server = RunningServer.start(database)) {
            server.post(event(3, "bleeding-checked", inserted.plusMinutes(9), "{\"amount\":\"none\"}"));

            assertThat(controlFlag(server).getStatus()).isEqualTo(Flag.FlagStatus.ENTEREDINERROR);
        }
    }

    private static Flag controlFlag(RunningServer server) {
        return bundle(server.get("/cases/quillmere-bp/NOW-1")).getEntry().stream()
                .map(Bundle.BundleEntryComponent::getResource)
                .filter(Flag.class::isInstance)
                .map(Flag.class::cast)
                .filter(it -> it.getCode().getCodingFirstRep().getCode().equals("control-deadline-missed"))
                .findFirst()
                .orElseThrow();
    }

    private static String event(int number, String type, OffsetDateTime at, String data) {
        return """
                {"eventId":"5f0d7a7c-3c1e-4d51-9a55-0a1b2c3d4e%02d","caseId":"NOW-1","facilityId":"quillmere-bp",\
                "type":"%s","occurredAt":"%s","recordedAt":"%s","recordedBy":{"id":"qm-01","role":"midwife"},"data":%s}""".formatted(number, type, ISO_OFFSET_DATE_TIME.format(at), ISO_OFFSET_DATE_TIME.format(at), data);
    }

    private static Bundle bundle(HttpResponse<String> answer) {
        assertThat(answer.headers().firstValue("Content-Type").orElse("")).startsWith("application/fhir+json");
        return FhirContext.forR4Cached().newJsonParser().parseResource(Bundle.class, answer.body());
    }

    private static List<String> lines(String name) {
        return Arrays.asList(new String(Samples.events(name), UTF_8).split("\n"));
    }

    private static byte[] firstLines(String name, int count) {
        return String.join("\n", lines(name).subList(0, count)).getBytes(UTF_8);
    }
}
