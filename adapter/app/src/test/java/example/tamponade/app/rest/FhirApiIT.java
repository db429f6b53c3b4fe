package example.tamponade.app.rest;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.AwkwardText;
import example.tamponade.app.Samples;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.search.SearchParameters;
import example.tamponade.app.search.SearchRequest;
import example.tamponade.app.serve.RunningServer;
import example.tamponade.fhir.conformance.Conformance;
import java.io.IOException;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.AuditEvent;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.CapabilityStatement;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Resource;

/** FHIR's RESTful API as a general client sees it; that it finds what others find is held where another server runs. */
class FhirApiIT {

    private static final FhirContext FHIR = FhirContext.forR4Cached();
    private static final String CASE = "/cases/fernglade-hp/FGL-2026-0117";

    @EachDatabase
    void whatIsReadIsWhatIsOnRecord(TestDatabase where) {
        try (RunningServer server = RunningServer.start(where)) {
            FhirReader reader = with(server, 0, 247);
            String patient = patient(reader);
            List<Resource> onRecord = onRecord(server);

            assertThat(texts(reader.all("Patient/" + patient + "/$everything"))).isEqualTo(texts(at(server, CASE)));
            for (String type : SearchParameters.standard().types()) {
                assertThat(reader.names(type + "?_count=500"))
                        .as(type)
                        .isEqualTo(FhirReader.names(onRecord.stream()
                                .filter(it -> it.fhirType().equals(type))
                                .toList()));
            }
            assertThat(onRecord.stream().map(Resource::fhirType).collect(Collectors.toSet()))
                    .isSubsetOf(SearchParameters.standard().types());
        }
    }

    @EachDatabase
    void theDocumentOfACaseIsFoundByItsMother(TestDatabase where) {
        try (RunningServer server = RunningServer.start(where)) {
            FhirReader reader = with(server, 0, 60);
            String patient = reader.all("Patient").get(0).getIdPart();

            Resource composition = reader.all("Composition?patient=" + patient).get(0);
            Bundle document = reader.bundle("Composition/" + composition.getIdPart() + "/$document");

            assertThat(document.getType()).isEqualTo(Bundle.BundleType.DOCUMENT);
            assertThat(text(document.getEntryFirstRep().getResource())).isEqualTo(text(composition));
            assertThat(text(document))
                    .isEqualTo(text(FhirReader.parse(
                            Bundle.class, server.get("/cases/fernglade-hp/FGL-2026-0117?as=document"))));
            assertThat(reader.answer("Composition/none").statusCode()).isEqualTo(404);
            assertThat(reader.answer("Composition").statusCode()).isEqualTo(400);
        }
    }

    @EachDatabase
    void everyVersionCanBeReadAndIsToldWithItsTime(TestDatabase where) {
        try (RunningServer server = RunningServer.start(where)) {
            FhirReader reader = with(server, 0, 60);
            String stay = "Encounter/"
                    + onRecord(server).stream()
                            .filter(it -> it.fhirType().equals("Encounter"))
                            .findFirst()
                            .orElseThrow()
                            .getIdPart();
            send(server, 60, 247);

            Bundle history = reader.bundle(stay + "/_history");
            List<Resource> versions = history.getEntry().stream()
                    .map(Bundle.BundleEntryComponent::getResource)
                    .toList();
            assertThat(versions).hasSizeGreaterThan(1);
            assertThat(history.getType()).isEqualTo(Bundle.BundleType.HISTORY);
            // As any validator of R4 has it: bdl-3 asks of each entry how it came about.
            assertThat(Conformance.stock().check(history).errors()).isEmpty();
            assertThat(history.getTotal()).isEqualTo(versions.size());
            for (int i = 0; i < versions.size(); i++) {
                String number = Integer.toString(versions.size() - i);
                assertThat(versions.get(i).getMeta().getVersionId()).isEqualTo(number);
                assertThat(versions.get(i).getMeta().getLastUpdated()).isNotNull();
                HttpResponse<String> version = reader.answer(stay + "/_history/" + number);
                assertThat(text((Resource) FHIR.newJsonParser().parseResource(version.body())))
                        .isEqualTo(text(versions.get(i)));
                assertThat(version.headers().firstValue("ETag")).contains("W/\"" + number + "\"");
            }
            assertThat(text((Resource) FHIR.newJsonParser()
                            .parseResource(reader.answer(stay).body())))
                    .isEqualTo(text(versions.get(0)));
            assertThat(FHIR.newXmlParser()
                            .parseResource(reader.answer(stay + "?_format=xml").body()))
                    .satisfies(it -> assertThat(text((Resource) it)).isEqualTo(text(versions.get(0))));
            assertThat(reader.bundle("Encounter/_history?_since="
                                    + FhirReader.encoded(versions.get(0)
                                            .getMeta()
                                            .getLastUpdatedElement()
                                            .getValueAsString()))
                            .getEntryFirstRep()
                            .getResource()
                            .getIdPart())
                    .isEqualTo(versions.get(0).getIdPart());
            assertThat(unchanged(server, stay, versions.size())).isEqualTo(304);
            assertThat(reader.answer(stay + "/_history/99").statusCode()).isEqualTo(404);
            assertThat(reader.answer(stay + "/_history/x").statusCode()).isEqualTo(404);
            assertThat(reader.answer("Encounter/none/_history").statusCode()).isEqualTo(404);
        }
    }

    @EachDatabase
    void pagesHaveEverythingOnceWhileMoreComes(TestDatabase where) {
        try (RunningServer server = RunningServer.start(where)) {
            FhirReader reader = with(server, 0, 60);
            for (String order : List.of("", "&_sort=date", "&_sort=-date", "&_sort=_lastUpdated", "&_sort=-_id")) {
                Set<String> before = reader.names("Observation?status=final&_count=500");
                List<Resource> found = new ArrayList<>();
                Bundle page = reader.bundle("Observation?_count=7" + order);
                FhirReader.matches(page, found);
                int sent = 60;
                while (page.getLink(Bundle.LINK_NEXT) != null) {
                    if (sent < 75) {
                        send(server, sent, ++sent);
                    }
                    page = reader.next(page);
                    FhirReader.matches(page, found);
                }
                assertThat(found.stream().map(FhirReader::name).toList())
                        .as(order)
                        .doesNotHaveDuplicates()
                        .containsAll(before);
            }
        }
    }

    @EachDatabase
    void anUpdateThatSearchesByMoreIndexesWhatIsThere(TestDatabase where) throws Exception {
        Map<String, Set<String>> before;
        try (RunningServer server = RunningServer.start(where)) {
            before = answers(with(server, 0, 247));
        }
        try (var connection = where.connect();
                var statement = connection.createStatement()) {
            for (String table : List.of("case_value", "further_time", "current_version", "search_index")) {
                statement.executeUpdate("delete from " + table);
            }
            if (!connection.getAutoCommit()) {
                connection.commit();
            }
        }
        try (RunningServer server = RunningServer.start(where)) {
            assertThat(answers(new FhirReader(server))).isEqualTo(before);
        }
    }

    private static Map<String, Set<String>> answers(FhirReader reader) {
        return Stream.of(
                        "Observation?code=shock-index",
                        "Observation?date=ge2026-03-03T12:00:00Z&_count=500",
                        "Flag?status=active",
                        "Provenance?_count=500")
                .collect(Collectors.toMap(it -> it, reader::names));
    }

    // "Clients MAY use POST [base]/[type]/_search": HL7 FHIR R4, RESTful API, 3.1.0.9.
    @EachDatabase
    void aSearchCanBeAskedByPost(TestDatabase where) throws Exception {
        try (RunningServer server = RunningServer.start(where)) {
            FhirReader reader = with(server, 0, 60);
            String patient = patient(reader);
            String asked = "patient=" + patient + "&code=http%3A%2F%2Floinc.org%7C8867-4&_count=50&_elements=value";
            HttpResponse<String> byGet = server.get("/fhir/Observation?" + asked);
            HttpResponse<String> byPost = HttpClient.newHttpClient()
                    .send(
                            server.request("/fhir/Observation/_search")
                                    .header("Content-Type", "application/x-www-form-urlencoded")
                                    .POST(HttpRequest.BodyPublishers.ofString(asked))
                                    .build(),
                            HttpResponse.BodyHandlers.ofString());

            assertThat(byPost.statusCode()).isEqualTo(200);
            List<String> found = ids(byGet.body());
            assertThat(found).hasSizeGreaterThan(3);
            assertThat(ids(byPost.body())).isEqualTo(found);
            // Who asked for what is written down alike, though it was in the body.
            Bundle entries = FhirReader.parse(Bundle.class, server.get("/fhir/AuditEvent?_count=200"));
            assertThat(entries.getEntry().stream()
                            .map(it -> (AuditEvent) it.getResource())
                            .flatMap(it -> it.getEntity().stream())
                            .filter(it -> it.hasQuery())
                            .map(it -> new String(it.getQuery(), StandardCharsets.UTF_8))
                            .filter(it -> it.contains(patient) && it.contains("8867-4")))
                    .hasSize(2);
        }
    }

    private static List<String> ids(String bundle) {
        return FHIR.newJsonParser().parseResource(Bundle.class, bundle).getEntry().stream()
                .map(it -> it.getResource().getIdPart())
                .toList();
    }

    @EachDatabase
    void nothingIsWrittenHere(TestDatabase where) throws Exception {
        try (RunningServer server = RunningServer.start(where)) {
            FhirReader reader = with(server, 0, 20);
            String patient = "Patient/" + patient(reader);
            String before = texts(onRecord(server)).toString();
            for (String method : List.of("PUT", "DELETE", "PATCH", "POST")) {
                HttpResponse<String> answer = send(server, method, method.equals("POST") ? "Patient" : patient);
                assertThat(answer.statusCode()).as(method).isEqualTo(405);
                assertThat(answer.body()).contains("POST /events");
                assertThat(answer.headers().firstValue("Allow")).isPresent();
            }
            assertThat(texts(onRecord(server)).toString()).isEqualTo(before);
        }
    }

    @EachDatabase
    void aResourceIsHeldToItsProfilesAndNotKept(TestDatabase where) {
        try (RunningServer server = RunningServer.start(where)) {
            FhirReader reader = with(server, 0, 20);
            String good = FHIR.newJsonParser()
                    .encodeResourceToString(reader.all("Observation?_count=1").get(0));
            Observation spoilt = FHIR.newJsonParser().parseResource(Observation.class, good);
            spoilt.setCode(null);
            for (boolean isGood : List.of(true, false)) {
                String sent = isGood ? good : FHIR.newJsonParser().encodeResourceToString(spoilt);
                OperationOutcome outcome = FhirReader.parse(
                        OperationOutcome.class,
                        server.post("/fhir/Observation/$validate", "application/fhir+json", sent.getBytes(UTF_8)));
                assertThat(outcome.getIssue().stream()
                                .noneMatch(it -> it.getSeverity() == OperationOutcome.IssueSeverity.ERROR))
                        .isEqualTo(isGood);
            }
            assertThat(reader.answer("Observation/none").statusCode()).isEqualTo(404);
        }
    }

    @EachDatabase
    void theLatestOfEachCodeIsWhatSheHadLast(TestDatabase where) {
        try (RunningServer server = RunningServer.start(where)) {
            FhirReader reader = with(server, 0, 247);
            Map<String, List<Observation>> byCode = new HashMap<>();
            onRecord(server).stream()
                    .filter(Observation.class::isInstance)
                    .map(Observation.class::cast)
                    .filter(it -> it.getSubject().getReference().startsWith("Patient/"))
                    .filter(it -> it.getStatus() != Observation.ObservationStatus.ENTEREDINERROR)
                    .forEach(it -> it.getCode()
                            .getCoding()
                            .forEach(code -> byCode.computeIfAbsent(
                                            code.getSystem() + "|" + code.getCode(), key -> new ArrayList<>())
                                    .add(it)));
            String patient = patient(reader);
            for (int most : List.of(1, 3)) {
                Set<String> latest = new TreeSet<>();
                byCode.values()
                        .forEach(it -> it.stream()
                                .sorted(Comparator.comparing(FhirApiIT::begin)
                                        .reversed()
                                        .thenComparing(Resource::getIdPart))
                                .limit(most)
                                .forEach(one -> latest.add(FhirReader.name(one))));
                assertThat(reader.names("Observation/$lastn?patient=" + patient + "&max=" + most))
                        .isEqualTo(latest);
            }
        }
    }

    private static long begin(Observation observation) {
        return observation.hasEffectivePeriod()
                ? observation.getEffectivePeriod().getStart().getTime()
                : observation.getEffectiveDateTimeType().getValue().getTime();
    }

    @EachDatabase
    void whatIsSearchedForIsFoundByOurOwnWordsToo(TestDatabase where) {
        try (RunningServer server = RunningServer.start(where)) {
            FhirReader reader = with(server, 0, 120);
            List<Resource> onRecord = onRecord(server);
            Set<String> open = FhirReader.names(onRecord.stream()
                    .filter(it -> it instanceof Flag flag && flag.getStatus() == Flag.FlagStatus.ACTIVE)
                    .toList());
            assertThat(open).isNotEmpty();
            assertThat(reader.names("Flag?status=active")).isEqualTo(open);
            Coding code = ((Flag) onRecord.stream()
                            .filter(Flag.class::isInstance)
                            .findFirst()
                            .orElseThrow())
                    .getCode()
                    .getCoding()
                    .get(0);
            // As curl sends it, with the bar as it is.
            assertThat(reader.names("Flag?code=" + code.getSystem() + "%7C" + code.getCode()))
                    .isNotEmpty();
            assertThat(reader.names("Observation?_count=500&code:in="
                            + "https://tamponade-adapter.example/fhir/ValueSet/derived-fact"))
                    .isEqualTo(reader.names("Observation?_count=500&category=derived"));
            assertThat(reader.bundle("Observation?_summary=count").getTotal()).isEqualTo((int)
                    onRecord.stream().filter(Observation.class::isInstance).count());
            assertThat(reader.bundle("Observation?_elements=status&_count=1")
                            .getEntryFirstRep()
                            .getResource()
                            .getMeta()
                            .getTag())
                    .anyMatch(it -> it.getCode().equals("SUBSETTED"));
        }
    }

    @EachDatabase
    void whatIsNotUnderstoodIsRefusedOrNamed(TestDatabase where) throws Exception {
        try (RunningServer server = RunningServer.start(where)) {
            FhirReader reader = with(server, 0, 20);
            assertThat(reader.outcome("Observation?weather=wet")
                            .getIssueFirstRep()
                            .getDiagnostics())
                    .contains("weather", "Prefer");
            Bundle lenient = FhirReader.parse(
                    Bundle.class,
                    HttpClient.newHttpClient()
                            .send(
                                    server.request("/fhir/Observation?weather=wet")
                                            .header("Prefer", "handling=lenient")
                                            .build(),
                                    HttpResponse.BodyHandlers.ofString()));
            assertThat(lenient.getEntry().stream()
                            .filter(it -> it.getSearch().getMode() == Bundle.SearchEntryMode.OUTCOME)
                            .map(it -> ((OperationOutcome) it.getResource())
                                    .getIssueFirstRep()
                                    .getDiagnostics()))
                    .singleElement()
                    .asString()
                    .contains("weather");
            assertThat(lenient.getLink(Bundle.LINK_SELF).getUrl()).doesNotContain("weather");
        }
    }

    // Whatever stands where a value is expected, it is a value, or refused with the place; never a fault of the server.
    @EachDatabase
    void whateverIsAskedIsAnswered(TestDatabase where) throws IOException {
        List<String> texts = new ArrayList<>(AwkwardText.TOKENS);
        texts.addAll(List.of(
                "' or 1=1 --",
                "\\",
                "|",
                "a|b|c",
                ",",
                "$",
                "Patient/",
                "/",
                "http://",
                "ge",
                "ge2026-13-45",
                "9999",
                "-1",
                "1e9",
                "%",
                "x".repeat(3000),
                ",".repeat(2000),
                "_after",
                "AAAA",
                "1 2 3"));
        try (RunningServer server = RunningServer.start(where)) {
            FhirReader reader = with(server, 0, 20);
            Map<String, Integer> statuses = new HashMap<>();
            List<String> names = new ArrayList<>(
                    SearchParameters.standard().of("Observation").keySet());
            names.addAll(List.of(
                    "_id",
                    "_lastUpdated",
                    "_count",
                    "_sort",
                    "_include",
                    "_revinclude",
                    "_total",
                    "_summary",
                    "_elements",
                    "_after",
                    "_format",
                    "code:in",
                    "code:not",
                    "code:nope",
                    "device:missing",
                    "patient.identifier",
                    "subject:Patient.identifier",
                    "subject:Nope.x",
                    "code.x",
                    ":::",
                    "patient:Patient"));
            for (String name : names) {
                for (String text : texts) {
                    HttpResponse<String> answer =
                            reader.answer("Observation?" + FhirReader.encoded(name) + "=" + FhirReader.encoded(text));
                    assertThat(answer.statusCode()).as(name + "=" + text).isIn(200, 400, 404, 410);
                    statuses.merge(name, answer.statusCode() == 200 ? 0 : 1, Integer::sum);
                }
            }
            assertThat(statuses.get("date")).isPositive();
            assertThat(reader.names("Observation?patient=" + FhirReader.encoded("' or 1=1 --")))
                    .isEmpty();
            assertThat(reader.answer("Observation?" + "_include=Observation:subject&".repeat(10_000))
                            .statusCode())
                    .isEqualTo(400);
            for (String id : texts) {
                assertThat(reader.answer("Observation/" + FhirReader.encoded(id) + "?x=1")
                                .statusCode())
                        .as(id)
                        .isBetween(200, 499);
            }
        }
    }

    // The smallest question that would cost most.
    @EachDatabase
    void moreThanOneAnswerCanHaveIsRefused(TestDatabase where) {
        try (RunningServer server = RunningServer.start(where)) {
            FhirReader reader = with(server, 0, 247);
            for (String question : List.of(
                    "$lastn",
                    "$lastn?code=shock-index",
                    "$lastn?patient:missing=false&max=9999",
                    "$lastn?patient:not=x",
                    "$lastn?patient=x&max=100000")) {
                assertThat(reader.answer("Observation/" + question).statusCode())
                        .as(question)
                        .isEqualTo(400);
            }
            assertThat(reader.outcome("Patient?_revinclude=Observation:subject")
                            .getIssueFirstRep()
                            .getDiagnostics())
                    .contains("_revinclude");
            assertThat(reader.bundle("Observation?_count=99999").getEntry()).hasSize(SearchRequest.GREATEST_COUNT);
        }
    }

    @EachDatabase
    void itSaysWhatItCan(TestDatabase where) {
        try (RunningServer server = RunningServer.start(where)) {
            CapabilityStatement statement = FhirReader.parse(CapabilityStatement.class, server.get("/fhir/metadata"));
            assertThat(Conformance.stock().check(statement).errors()).isEmpty();
            assertThat(statement.getDescription()).contains("not a medical device");
            Map<String, Set<String>> searches = statement.getRestFirstRep().getResource().stream()
                    .filter(it -> it.hasSearchParam())
                    .collect(Collectors.toMap(
                            it -> it.getType(),
                            it -> it.getSearchParam().stream()
                                    .map(one -> one.getName())
                                    .collect(Collectors.toSet())));
            // What is not on record, but made of it, and the access log.
            Stream.of("AuditEvent", "Composition", "Measure")
                    .forEach(it -> assertThat(searches.remove(it)).isNotNull());
            assertThat(searches.keySet()).isEqualTo(SearchParameters.standard().types());
            assertThat(searches.get("Observation")).contains("_id", "_lastUpdated", "code", "date", "derived-from");
            FhirReader reader = new FhirReader(server);
            searches.forEach((type, names) -> names.forEach(it -> assertThat(
                            reader.answer(type + "?" + it + ":missing=true").statusCode())
                    .as(type + " " + it)
                    .isEqualTo(it.equals("_id") || it.equals("_lastUpdated") ? 400 : 200)));
        }
    }

    private static FhirReader with(RunningServer server, int from, int to) {
        send(server, from, to);
        return new FhirReader(server);
    }

    private static void send(RunningServer server, int from, int to) {
        String lines = new String(Samples.events("settled"), UTF_8)
                .lines()
                .skip(from)
                .limit(to - from)
                .collect(Collectors.joining("\n"));
        server.post("application/x-ndjson", lines.getBytes(UTF_8));
        while (!server.get("/ledger").body().contains("\"casesBehind\":0")) {
            Thread.onSpinWait();
        }
    }

    private static List<Resource> onRecord(RunningServer server) {
        return Stream.concat(at(server, CASE).stream(), at(server, "/facilities/fernglade-hp").stream())
                .collect(Collectors.toMap(FhirReader::name, it -> it, (one, same) -> one, TreeMap::new))
                .values()
                .stream()
                .toList();
    }

    private static List<Resource> at(RunningServer server, String path) {
        HttpResponse<String> answer = server.get(path);
        return answer.statusCode() != 200
                ? List.of()
                : FhirReader.parse(Bundle.class, answer).getEntry().stream()
                        .map(Bundle.BundleEntryComponent::getResource)
                        .toList();
    }

    private static String patient(FhirReader reader) {
        return reader.all("Patient?").get(0).getIdPart();
    }

    private static Map<String, String> texts(List<Resource> resources) {
        return resources.stream().collect(Collectors.toMap(FhirReader::name, FhirApiIT::text, (one, same) -> one));
    }

    // Without what says when it went on record, and in which version.
    private static String text(Resource resource) {
        Resource copy = resource.copy();
        copy.setId(resource.getIdPart());
        copy.getMeta().setVersionId(null).setLastUpdated(null);
        return FHIR.newJsonParser().encodeResourceToString(copy);
    }

    private static int unchanged(RunningServer server, String path, int version) {
        return status(server, server.request("/fhir/" + path).header("If-None-Match", "W/\"" + version + "\""));
    }

    private static int status(RunningServer server, HttpRequest.Builder request) {
        try {
            return HttpClient.newHttpClient()
                    .send(request.build(), HttpResponse.BodyHandlers.ofString())
                    .statusCode();
        } catch (IOException | InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    private static HttpResponse<String> send(RunningServer server, String method, String path) throws Exception {
        return HttpClient.newHttpClient()
                .send(
                        server.request("/fhir/" + path)
                                .header("Content-Type", "application/fhir+json")
                                .method(
                                        method,
                                        HttpRequest.BodyPublishers.ofString("{\"resourceType\":\"Patient\",\"id\":\""
                                                + path.replaceFirst(".*/", "") + "\"}"))
                                .build(),
                        HttpResponse.BodyHandlers.ofString());
    }
}
