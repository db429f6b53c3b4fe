package example.tamponade.app.measure;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.fhirpath.IFhirPath;
import example.tamponade.app.Samples;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.serve.RunningServer;
import example.tamponade.fhir.conformance.Conformance;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.UUID;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.BooleanType;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.EpisodeOfCare;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.ListResource;
import org.hl7.fhir.r4.model.Measure;
import org.hl7.fhir.r4.model.MeasureReport;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The server's counts, held to those of a general engine: the criteria of the published measures, evaluated by HAPI's FHIRPath
 * over what the server exports.
 */
class MeasuresIT {

    private static final FhirContext FHIR = FhirContext.forR4Cached();
    private static final String MONTHS = "periodStart=2026-01&periodEnd=2026-12";
    private static final Pattern UUIDS = Pattern.compile("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}");
    private static final List<String> BAD = List.of(
            "",
            "periodStart=2026-03-01",
            "periodStart=2026-03-02&periodEnd=2026-03-01",
            "periodStart=2026-13&periodEnd=2026-14",
            "periodStart=March&periodEnd=April",
            MONTHS + "&reportType=cohort",
            MONTHS + "&subject=Patient/1",
            MONTHS + "&practitioner=1");

    @EachDatabase
    void countsWhatAGeneralEngineCounts(TestDatabase where) throws Exception {
        long seed = System.nanoTime();
        try (RunningServer server = RunningServer.start(where)) {
            Samples.CASES.forEach(it -> server.post("application/x-ndjson", Samples.events(it)));
            Random random = new Random(seed);
            for (int i = 0; i < 24; i++) {
                server.post("application/x-ndjson", thinned(random, i));
            }
            while (!server.get("/ledger").body().contains("\"casesBehind\":0")) {
                Thread.sleep(20);
            }
            // What time has brought is on record before anything is counted.
            for (JsonNode key :
                    JsonMapper.shared().readTree(server.get("/cases").body())) {
                server.get("/cases/" + key.asString() + "?view=handover");
            }
            Map<String, Bundle> exported = exported(server);
            assertThat(exported).hasSizeGreaterThan(20);
            Set<String> asked = new TreeSet<>();
            Set<String> met = new TreeSet<>();
            for (Resource resource : resources(server, "/fhir/Measure")) {
                Measure measure = (Measure) resource;
                MeasureReport report = report(server, measure.getIdPart(), "&reportType=subject-list");
                for (int place = 0; place < 3; place++) {
                    Set<String> expected = matching(measure, place, exported);
                    assertThat(report.getGroupFirstRep()
                                    .getPopulation()
                                    .get(place)
                                    .getCount())
                            .as("%s, population %d, seed %d", measure.getIdPart(), place, seed)
                            .isEqualTo(expected.size());
                    if (place > 0) {
                        assertThat(listed(report, place))
                                .as("%s, population %d, seed %d", measure.getIdPart(), place, seed)
                                .isEqualTo(expected);
                    }
                }
                if (report.getGroupFirstRep().getPopulation().get(1).getCount() > 0) {
                    asked.add(measure.getIdPart());
                    met.add(measure.getIdPart()
                            + (report.getGroupFirstRep().getPopulation().get(2).getCount() > 0));
                }
                assertThat(Conformance.stock().check(report).errors()).isEmpty();
                assertThat(server.get("/measures?month=2026-02").body()).contains(measure.getTitle());
            }
            assertThat(asked).hasSize(MeasureRule.values().length);
            assertThat(met).anyMatch(it -> it.endsWith("true"));
        }
    }

    // A sample whose case is another's and of which much was never recorded.
    private static byte[] thinned(Random random, int number) {
        String sample = Samples.CASES.get(random.nextInt(Samples.CASES.size()));
        int kept = 15 + random.nextInt(60);
        return new String(Samples.events(sample), UTF_8)
                .replaceAll("\"caseId\":\"[^\"]*\"", "\"caseId\":\"THIN-" + number + "\"")
                .lines()
                .filter(it -> it.contains("case-opened") || random.nextInt(100) < kept)
                .map(it -> UUIDS.matcher(it)
                        .replaceAll(id -> UUID.nameUUIDFromBytes((id.group() + number).getBytes(UTF_8))
                                .toString()))
                .collect(Collectors.joining("\n"))
                .getBytes(UTF_8);
    }

    private static MeasureReport report(RunningServer server, String id, String further) {
        return (MeasureReport) FHIR.newJsonParser()
                .parseResource(server.get("/fhir/Measure/" + id + "/$evaluate-measure?" + MONTHS + further)
                        .body());
    }

    private static List<Resource> resources(RunningServer server, String path) {
        return FHIR.newJsonParser().parseResource(Bundle.class, server.get(path).body()).getEntry().stream()
                .map(Bundle.BundleEntryComponent::getResource)
                .toList();
    }

    private static Set<String> matching(Measure measure, int place, Map<String, Bundle> exported) {
        IFhirPath engine = FHIR.newFhirPath();
        Set<String> matching = new TreeSet<>();
        exported.forEach((patient, bundle) -> {
            boolean holds = true;
            // Each population is of those before it.
            for (int before = 1; before <= place; before++) {
                String criteria = measure.getGroupFirstRep()
                        .getPopulation()
                        .get(before)
                        .getCriteria()
                        .getExpression();
                holds &= engine.evaluateFirst(bundle, criteria, BooleanType.class)
                        .map(BooleanType::booleanValue)
                        .orElse(false);
            }
            if (holds) {
                matching.add(patient);
            }
        });
        return matching;
    }

    private static Set<String> listed(MeasureReport report, int place) {
        String id = report.getGroupFirstRep()
                .getPopulation()
                .get(place)
                .getSubjectResults()
                .getReference();
        return report.getContained().stream()
                .filter(it -> id.equals("#" + it.getIdPart()) || id.equals(it.getId()))
                .flatMap(it -> ((ListResource) it).getEntry().stream())
                .map(it -> it.getItem().getReference())
                .collect(Collectors.toCollection(TreeSet::new));
    }

    // What was exported, a Bundle for each mother who has a case.
    private static Map<String, Bundle> exported(RunningServer server) throws Exception {
        HttpResponse<String> taken = HttpClient.newHttpClient()
                .send(
                        server.request("/fhir/Patient/$export?_type=EpisodeOfCare,Observation,Flag")
                                .header("Prefer", "respond-async")
                                .build(),
                        HttpResponse.BodyHandlers.ofString());
        String path = URI.create(taken.headers().firstValue("Content-Location").orElseThrow())
                .getPath();
        while (server.get(path).statusCode() == 202) {
            Thread.sleep(20);
        }
        List<Resource> resources = new ArrayList<>();
        for (JsonNode file :
                JsonMapper.shared().readTree(server.get(path).body()).required("output")) {
            server.get(URI.create(file.required("url").asString()).getPath())
                    .body()
                    .lines()
                    .forEach(it -> resources.add((Resource) FHIR.newJsonParser().parseResource(it)));
        }
        Map<String, Bundle> byMother = new TreeMap<>();
        resources.stream()
                .filter(EpisodeOfCare.class::isInstance)
                .forEach(it -> byMother.put(((EpisodeOfCare) it).getPatient().getReference(), new Bundle()));
        resources.forEach(it -> {
            Bundle bundle = byMother.get(mother(it));
            if (bundle != null) {
                bundle.addEntry().setResource(it);
            }
        });
        return byMother;
    }

    private static String mother(Resource resource) {
        if (resource instanceof Observation observation) {
            return observation.getSubject().getReference();
        }
        return resource instanceof Flag flag
                ? flag.getSubject().getReference()
                : ((EpisodeOfCare) resource).getPatient().getReference();
    }

    @Test
    void tellsNoSmallNumbersAndSaysWhatIsWrong() {
        try (TestDatabase where = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(where, "--tamponade.measures.smallest=5")) {
            server.post("application/x-ndjson", Samples.events("referred"));
            while (!server.get("/ledger").body().contains("\"casesBehind\":0")) {
                Thread.onSpinWait();
            }
            MeasureReport few = report(server, "near-miss", "");
            assertThat(few.getGroupFirstRep().getPopulation())
                    .allSatisfy(
                            it -> assertThat(it.getCountElement().hasValue()).isFalse());
            assertThat(few.getGroupFirstRep().getMeasureScore().hasValue()).isFalse();
            assertThat(server.get("/measures?month=2026-03").body())
                    .contains("near-miss,Near miss,too few,too few,too few");
            // None is told: nobody is recognised in it.
            MeasureReport none = report(server, "near-miss", "&subject=Group/facility-nowhere");
            assertThat(none.getGroupFirstRep().getPopulation().get(1).getCount())
                    .isZero();
            assertThat(none.getGroupFirstRep().getMeasureScore().hasValue()).isFalse();
            assertThat(server.get("/measures?month=2026-01").body()).contains("near-miss,Near miss,0,0,no case");
            for (String query : BAD) {
                assertThat(server.get("/fhir/Measure/near-miss/$evaluate-measure?" + query)
                                .statusCode())
                        .as(query)
                        .isEqualTo(400);
            }
            assertThat(server.get("/fhir/Measure/none/$evaluate-measure?" + MONTHS)
                            .statusCode())
                    .isEqualTo(404);
            assertThat(server.get("/measures?month=March").statusCode()).isEqualTo(400);
            assertThat(server.get("/measures").statusCode()).isEqualTo(400);
        }
    }
}
