package example.tamponade.app.export;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.Samples;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.serve.RunningServer;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Bulk export as a client of the published guide asks for it. */
class ExportIT {

    private static final FhirContext FHIR = FhirContext.forR4Cached();
    private static final HttpClient CLIENT = HttpClient.newHttpClient();
    private static final String SETTLED = "/cases/fernglade-hp/FGL-2026-0117";
    private static final String REFERRED = "/cases/marrowby-cross/MRX-2026-0048";

    @EachDatabase
    void whatIsExportedIsWhatIsOnRecord(TestDatabase where) throws Exception {
        try (RunningServer server = RunningServer.start(where)) {
            send(server, "settled", "referred");

            assertThat(exported(server, "$export"))
                    .isEqualTo(onRecord(
                            server, SETTLED, REFERRED, "/facilities/fernglade-hp", "/facilities/marrowby-cross"));
            assertThat(exported(server, "Patient/$export")).isEqualTo(onRecord(server, SETTLED, REFERRED));
            assertThat(exported(server, "Group/month-2026-03/$export")).isEqualTo(onRecord(server, REFERRED));
            assertThat(exported(server, "Group/facility-fernglade-hp/$export")).isEqualTo(onRecord(server, SETTLED));
            assertThat(exported(server, "Group/month-2026-03.facility-fernglade-hp/$export"))
                    .isEmpty();
            assertThat(exported(server, "$export?_type=Flag,Patient"))
                    .isEqualTo(onRecord(server, SETTLED, REFERRED).entrySet().stream()
                            .filter(it -> it.getKey().matches("(Flag|Patient)/.*"))
                            .collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue)));
        }
    }

    @EachDatabase
    void whatChangedSinceIsExportedAlone(TestDatabase where) throws Exception {
        try (RunningServer server = RunningServer.start(where)) {
            send(server, "settled");
            String before = Instant.now().toString();
            assertThat(exported(server, "$export?_since=" + before)).isEmpty();
            Set<String> there = onRecord(server, SETTLED).keySet();
            send(server, "referred");

            Map<String, String> came = onRecord(server, REFERRED);
            came.keySet().removeAll(there);
            assertThat(exported(server, "Patient/$export?_since=" + before)).isEqualTo(came);
        }
    }

    @EachDatabase
    void whatAStopCutOffIsWrittenAfterTheNextStart(TestDatabase where) throws Exception {
        String id;
        Map<String, String> first;
        try (RunningServer server = RunningServer.start(where)) {
            send(server, "settled");
            URI at = taken(server, "$export");
            first = files(server, finished(server, at));
            id = at.getPath();
        }
        Path folder = folder(where, id);
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(folder)))
                .isEqualTo("rwx------");
        Files.delete(folder.resolve("manifest.json"));
        Files.writeString(folder.resolve("Flag.ndjson"), "{\"resourceTy");
        try (RunningServer server = RunningServer.start(where)) {
            URI at = URI.create("http://127.0.0.1:" + server.port() + id);
            finished(server, at);
            assertThat(Files.readString(folder.resolve("Flag.ndjson")))
                    .isEqualTo(new String(
                            get(server, at.resolve(id + "/Flag.ndjson")).body(), UTF_8))
                    .endsWith("}\n");
            assertThat(Files.list(folder).filter(it -> it.toString().endsWith(".ndjson")))
                    .hasSameSizeAs(first.keySet().stream()
                            .map(it -> it.replaceFirst("/.*", ""))
                            .distinct()
                            .toList());
        }
    }

    @EachDatabase
    void itGoesWhenItIsDeletedOrOld(TestDatabase where) throws Exception {
        try (RunningServer server = RunningServer.start(where)) {
            send(server, "settled");
            URI deleted = taken(server, "$export");
            finished(server, deleted);
            assertThat(CLIENT.send(server.request(deleted).DELETE().build(), HttpResponse.BodyHandlers.discarding())
                            .statusCode())
                    .isEqualTo(202);
            URI old = taken(server, "$export");
            finished(server, old);
            Files.setLastModifiedTime(
                    folder(where, old.getPath()).resolve("manifest.json"),
                    FileTime.from(Instant.now().minus(Exports.KEPT).minusSeconds(1)));
            for (URI gone : List.of(deleted, old)) {
                assertThat(get(server, gone).statusCode()).isEqualTo(404);
                assertThat(get(server, URI.create(gone + "/Flag.ndjson")).statusCode())
                        .isEqualTo(404);
                assertThat(folder(where, gone.getPath())).doesNotExist();
            }
        }
    }

    @EachDatabase
    void noMoreAreKeptThanThereIsPlaceFor(TestDatabase where) throws Exception {
        try (RunningServer server = RunningServer.start(where)) {
            for (int i = 0; i < Exports.MOST; i++) {
                taken(server, "$export");
            }
            HttpResponse<byte[]> refused = kickOff(server, "$export", "respond-async");
            assertThat(refused.statusCode()).isEqualTo(429);
            assertThat(new String(refused.body(), UTF_8)).contains("delete one");
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "$export?_type=Weather",
                "$export?_since=yesterday",
                "$export?_outputFormat=text/csv",
                "$export?_typeFilter=Observation%3Fcode%3Dx",
                "Group/nobody/$export",
                "Group/month-2026-13/$export",
                "Group/month-2026-03.x/$export"
            })
    void whatIsNotUnderstoodIsRefused(String request) throws Exception {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(database)) {
            HttpResponse<byte[]> answer = kickOff(server, request, "respond-async");
            assertThat(answer.statusCode()).isIn(400, 404);
            assertThat(new String(answer.body(), UTF_8)).contains("OperationOutcome", "diagnostics");
            assertThat(kickOff(server, "$export", "return=minimal").statusCode())
                    .isEqualTo(400);
            assertThat(get(server, URI.create("http://127.0.0.1:" + server.port() + "/exports/..%2f..%2fetc/passwd"))
                            .statusCode())
                    .isBetween(400, 404);
        }
    }

    @ParameterizedTest
    @CsvSource({
        "month-2026-03, 2026-03,",
        "facility-fernglade-hp, , fernglade-hp",
        "month-2026-03.facility-month-2026-04, 2026-03, month-2026-04",
        "facility-x.month-2026-03, , x.month-2026-03"
    })
    void aGroupIsNamedByOneId(String id, YearMonth month, String facility) {
        assertThat(CaseGroup.of(id)).isEqualTo(new CaseGroup(month, facility));
        assertThat(new CaseGroup(month, facility).id()).isEqualTo(id);
    }

    // A case that began late in the evening of the last day belongs to that month, whatever the month is in UTC.
    @Test
    void theMonthIsThatOfTheClockAtTheBedside() throws Exception {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(database)) {
            String opening = new String(Samples.events("settled"), UTF_8)
                    .lines()
                    .filter(it -> it.contains("\"case-opened\""))
                    .findFirst()
                    .orElseThrow()
                    .replaceAll(
                            "\"(occurredAt|recordedAt|encounterStart)\":\"[^\"]*\"",
                            "\"$1\":\"2026-03-01T01:00:00+05:45\"");
            assertThat(server.post(opening).statusCode()).isEqualTo(201);
            while (!server.get("/ledger").body().contains("\"casesBehind\":0")) {
                Thread.onSpinWait();
            }
            assertThat(exported(server, "Group/month-2026-02/$export?_type=Patient"))
                    .isEmpty();
            assertThat(exported(server, "Group/month-2026-03/$export?_type=Patient"))
                    .hasSize(1);
            assertThat(server.get("/fhir/Group").body()).contains("month-2026-03", "facility-fernglade-hp");
            assertThat(server.get("/fhir/Group/month-2026-03").body()).contains("\"quantity\":1");
        }
    }

    private static void send(RunningServer server, String... samples) {
        for (String sample : samples) {
            server.post("application/x-ndjson", Samples.events(sample));
        }
        while (!server.get("/ledger").body().contains("\"casesBehind\":0")) {
            Thread.onSpinWait();
        }
    }

    private static Path folder(TestDatabase where, String id) {
        return where.settings().folder().resolve("exports").resolve(id.substring(id.lastIndexOf('/') + 1));
    }

    private static HttpResponse<byte[]> kickOff(RunningServer server, String request, String prefer) throws Exception {
        return CLIENT.send(
                server.request("/fhir/" + request)
                        .header("Accept", "application/fhir+json")
                        .header("Prefer", prefer)
                        .build(),
                HttpResponse.BodyHandlers.ofByteArray());
    }

    private static URI taken(RunningServer server, String request) throws Exception {
        HttpResponse<byte[]> answer = kickOff(server, request, "respond-async");
        assertThat(answer.statusCode()).as(request).isEqualTo(202);
        return URI.create(answer.headers().firstValue("Content-Location").orElseThrow());
    }

    private static HttpResponse<byte[]> get(RunningServer server, URI at) throws IOException, InterruptedException {
        return CLIENT.send(server.request(at).build(), HttpResponse.BodyHandlers.ofByteArray());
    }

    private static JsonNode finished(RunningServer server, URI at) throws Exception {
        HttpResponse<byte[]> answer = get(server, at);
        while (answer.statusCode() == 202) {
            assertThat(answer.headers().firstValue("X-Progress")).isPresent();
            Thread.onSpinWait();
            answer = get(server, at);
        }
        assertThat(answer.statusCode()).isEqualTo(200);
        assertThat(answer.headers().firstValue("Expires")).isPresent();
        return JsonMapper.shared().readTree(answer.body());
    }

    private static Map<String, String> exported(RunningServer server, String request) throws Exception {
        JsonNode manifest = finished(server, taken(server, request));
        assertThat(manifest.required("requiresAccessToken").asBoolean()).isTrue();
        assertThat(Instant.parse(manifest.required("transactionTime").asString()))
                .isBefore(Instant.now());
        assertThat(manifest.required("request").asString()).endsWith("/fhir/" + request);
        return files(server, manifest);
    }

    private static Map<String, String> files(RunningServer server, JsonNode manifest) throws Exception {
        Map<String, String> texts = new TreeMap<>();
        for (JsonNode file : manifest.required("output")) {
            HttpResponse<byte[]> answer =
                    get(server, URI.create(file.required("url").asString()));
            assertThat(answer.headers().firstValue("Content-Type")).contains("application/fhir+ndjson");
            List<String> lines = new String(answer.body(), UTF_8).lines().toList();
            assertThat(lines).hasSize(file.required("count").asInt());
            for (String line : lines) {
                Resource resource = (Resource) FHIR.newJsonParser().parseResource(line);
                assertThat(resource.fhirType()).isEqualTo(file.required("type").asString());
                assertThat(resource.getMeta().getLastUpdated()).isNotNull();
                String former = texts.put(resource.fhirType() + "/" + resource.getIdPart(), text(resource));
                assertThat(former).as("twice").isNull();
            }
        }
        return texts;
    }

    private static Map<String, String> onRecord(RunningServer server, String... paths) {
        List<Resource> resources = new ArrayList<>();
        Stream.of(paths)
                .map(it -> FHIR.newJsonParser()
                        .parseResource(Bundle.class, server.get(it).body()))
                .forEach(it -> it.getEntry().forEach(entry -> resources.add(entry.getResource())));
        return resources.stream()
                .collect(Collectors.toMap(
                        it -> it.fhirType() + "/" + it.getIdPart(), ExportIT::text, (one, same) -> one, TreeMap::new));
    }

    private static String text(Resource resource) {
        Resource copy = resource.copy();
        copy.setId(resource.getIdPart());
        copy.getMeta().setVersionId(null).setLastUpdated(null);
        return FHIR.newJsonParser().encodeResourceToString(copy);
    }
}
