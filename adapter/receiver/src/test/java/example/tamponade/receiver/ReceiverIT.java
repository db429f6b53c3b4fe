package example.tamponade.receiver;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.jpa.api.dao.DaoRegistry;
import ca.uhn.fhir.jpa.api.dao.IFhirSystemDao;
import ca.uhn.fhir.jpa.searchparam.SearchParameterMap;
import ca.uhn.fhir.jpa.test.config.TestR4Config;
import ca.uhn.fhir.rest.api.server.SystemRequestDetails;
import ca.uhn.fhir.rest.param.ReferenceParam;
import ca.uhn.fhir.rest.param.TokenParam;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.IdType;
import org.hl7.fhir.r4.model.Meta;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.context.annotation.AnnotationConfigApplicationContext;

/**
 * A FHIR server that knows nothing of this project takes what the adapter hands on: HAPI's JPA server, with referential
 * integrity as it is by default.
 */
class ReceiverIT {

    private static final FhirContext FHIR = FhirContext.forR4Cached();
    private static final String CASE = "https://tamponade-adapter.example/fhir/identifier/case";
    private static final String REGISTER = "urn:example:marrowby:ward-register";
    private static final String REFERRED = "MRX-2026-0048";

    @TempDir
    private static Path folder;

    private static AnnotationConfigApplicationContext server;
    private static List<Bundle> samples;
    private static List<Bundle> others;

    @BeforeAll
    static void theSamplesAreSentInAnyOrderWithAnotherFacilitysBesideThem() throws Exception {
        server = new AnnotationConfigApplicationContext(TestR4Config.class);
        samples = Adapter.samples(folder);
        others = Adapter.ofAnotherFacility("referred", "north", "full", folder);
        List<Bundle> all = new ArrayList<>(samples);
        all.addAll(others);
        long seed = new Random().nextLong();
        Collections.shuffle(all, new Random(seed));

        assertThat(all).hasSizeGreaterThan(10);
        all.forEach(it -> assertThat(take(it)).as("seed " + seed).allMatch(answer -> answer.startsWith("20")));
    }

    @AfterAll
    static void close() {
        server.close();
    }

    @Test
    void whatIsSentTwiceMakesNoNewVersion() {
        samples.forEach(it -> assertThat(take(it)).allMatch("200 OK 1"::equals));
    }

    @Test
    void whatWasSentComesBackTheSame() {
        Bundle referred = ofCase(samples, REFERRED);
        referred.getEntry().forEach(it -> {
            Resource sent = it.getResource();
            Resource kept = (Resource) registry()
                    .getResourceDao(sent.fhirType())
                    .read(sent.getIdElement().toUnqualifiedVersionless(), new SystemRequestDetails());
            assertThat(json(kept)).isEqualTo(json(sent));
        });
    }

    // The same number at two facilities is two cases, two stays and two mothers.
    @Test
    void nothingOfAnotherFacilityIsMixedIn() {
        Set<String> ours = ids(ofCase(samples, REFERRED), "Observation");
        Set<String> theirs = ids(ofCase(others, REFERRED), "Observation");
        assertThat(ours).hasSameSizeAs(theirs).doesNotContainAnyElementsOf(theirs);

        assertThat(observationsOf(patient(ofCase(samples, REFERRED)))).isEqualTo(ours);
        assertThat(observationsOf(patient(ofCase(others, REFERRED)))).isEqualTo(theirs);
        for (String facility : List.of("marrowby-cross", "north-marrowby-cross")) {
            SearchParameterMap byCase =
                    SearchParameterMap.newSynchronous("identifier", new TokenParam(CASE, facility + "/" + REFERRED));
            assertThat(registry()
                            .getResourceDao("EpisodeOfCare")
                            .search(byCase, new SystemRequestDetails())
                            .size())
                    .isEqualTo(1);
        }
    }

    @Test
    void anOlderBundleSentAfterANewerOnePutsOlderStatesBack() throws Exception {
        List<Bundle> older = Adapter.beginning("referred", 40, "south", "full", folder);
        List<Bundle> newer = Adapter.ofAnotherFacility("referred", "south", "full", folder);
        String stay = ids(ofCase(older, REFERRED), "Encounter").iterator().next();

        older.forEach(ReceiverIT::take);
        newer.forEach(ReceiverIT::take);
        assertThat(stateOf(stay)).isEqualTo(Encounter.EncounterStatus.FINISHED);
        older.forEach(ReceiverIT::take);
        assertThat(stateOf(stay)).isEqualTo(Encounter.EncounterStatus.INPROGRESS);
    }

    private static Encounter.EncounterStatus stateOf(String stay) {
        return ((Encounter) registry()
                        .getResourceDao("Encounter")
                        .read(new IdType("Encounter", stay), new SystemRequestDetails()))
                .getStatus();
    }

    // Whoever wants the handover alone needs nothing else.
    @Test
    void aViewIsTakenByItself() throws Exception {
        for (String view : List.of("course", "handover")) {
            for (Bundle bundle : Adapter.ofAnotherFacility("referred", view, view, folder)) {
                assertThat(take(bundle)).allMatch(answer -> answer.startsWith("20"));
            }
        }
    }

    // Two settings and one command: nothing but the address is set, and the events are posted.
    @Test
    void theRunningAdapterDeliversWhatItTakes() throws Exception {
        try (RunningReceiver receiver = RunningReceiver.start(server);
                RunningAdapter adapter = RunningAdapter.deliveringTo(receiver.address(), folder)) {
            String lines = Adapter.eventsOf("referred", Integer.MAX_VALUE, "west");
            assertThat(adapter.post(lines)).isEqualTo(200);
            adapter.waitUntilItSays("/ledger", "\"casesBehind\":0");
            adapter.waitUntilItSays("/deliveries", "\"resources\":0");
            assertThat(adapter.get("/deliveries")).contains("\"parkedCases\":0", "\"problem\":\"\"");

            Bundle onRecord = FHIR.newJsonParser()
                    .parseResource(Bundle.class, adapter.get("/cases/west-marrowby-cross/" + REFERRED));
            assertThat(onRecord.getEntry()).hasSizeGreaterThan(1000);
            onRecord.getEntry().forEach(it -> {
                Resource ours = it.getResource();
                Resource theirs = (Resource) registry()
                        .getResourceDao(ours.fhirType())
                        .read(new IdType(ours.fhirType(), ours.getIdPart()), new SystemRequestDetails());
                assertThat(json(theirs)).isEqualTo(json(ours));
            });
        }
    }

    // It gives its own ids; what is sent again, or corrected, is found there again, and never twice.
    @Test
    void aReceiverThatGivesItsOwnIdsGetsEachResourceOnce() throws Exception {
        Path data = Files.createDirectory(folder.resolve("own-ids"));
        try (RunningReceiver receiver = RunningReceiver.start(server);
                RunningAdapter adapter = RunningAdapter.start(
                        data,
                        Map.of(
                                "TAMPONADE_DESTINATIONS_RECORD_ADDRESS",
                                receiver.address(),
                                "TAMPONADE_DESTINATIONS_RECORD_IDS",
                                "receiver"))) {
            Map<String, Integer> before = counts();
            adapter.post(Adapter.eventsOf("referred", 60, "own"));
            waitUntilDelivered(adapter);
            adapter.post(Adapter.eventsOf("referred", Integer.MAX_VALUE, "own"));
            waitUntilDelivered(adapter);

            Bundle onRecord = FHIR.newJsonParser()
                    .parseResource(Bundle.class, adapter.get("/cases/own-marrowby-cross/" + REFERRED));
            Map<String, Integer> made = counts();
            before.forEach((type, count) -> made.merge(type, -count, Integer::sum));
            for (String type : made.keySet()) {
                assertThat(adapter.get("/fhir/" + type + "?_summary=count"))
                        .contains("\"total\":" + made.get(type) + "}");
            }
            for (Bundle.BundleEntryComponent entry : onRecord.getEntry()) {
                Resource resource = entry.getResource();
                // Each of these has changed since it was sent first.
                if (resource instanceof Encounter stay) {
                    assertThat(((Encounter) found(resource)).getStatus()).isEqualTo(stay.getStatus());
                }
                if (resource instanceof Flag flag) {
                    assertThat(((Flag) found(resource)).getStatus()).isEqualTo(flag.getStatus());
                }
                if (resource instanceof Observation observation) {
                    Observation theirs = (Observation) found(resource);
                    assertThat(theirs.getIdPart()).isNotEqualTo(observation.getIdPart());
                    assertThat(FHIR.newJsonParser().encodeToString(theirs.getCode()))
                            .isEqualTo(FHIR.newJsonParser().encodeToString(observation.getCode()));
                    assertThat(theirs.getStatus()).isEqualTo(observation.getStatus());
                    assertThat(theirs.getDerivedFrom()).hasSameSizeAs(observation.getDerivedFrom());
                }
            }
        }
    }

    // Whom the receiver knows is not made again, and not changed; two cases of hers are hers.
    @Test
    void aMotherTheReceiverKnowsIsFoundByHerIdentifier() throws Exception {
        Patient hers = new Patient();
        hers.addIdentifier().setSystem(REGISTER).setValue("known-0048/26");
        hers.addName().setFamily("Known there already");
        String id = registry()
                .getResourceDao(Patient.class)
                .create(hers, new SystemRequestDetails())
                .getId()
                .getIdPart();
        for (Map.Entry<String, String> setting :
                Map.of("IDS", "receiver", "MOTHER_BY", REGISTER).entrySet()) {
            Path data = Files.createDirectory(folder.resolve("known-" + setting.getKey()));
            try (RunningReceiver receiver = RunningReceiver.start(server);
                    RunningAdapter adapter = RunningAdapter.start(
                            data,
                            Map.of(
                                    "TAMPONADE_DESTINATIONS_RECORD_ADDRESS",
                                    receiver.address(),
                                    "TAMPONADE_DESTINATIONS_RECORD_" + setting.getKey(),
                                    setting.getValue()))) {
                int before = observationsOf(id).size();
                adapter.post(Adapter.eventsOf("referred", 60, setting.getKey().equals("IDS") ? "first" : "second")
                        .replaceAll("[a-z]+-0048/26", "known-0048/26"));
                waitUntilDelivered(adapter);

                assertThat(observationsOf(id)).hasSizeGreaterThan(before + 50);
            }
        }
        Patient kept =
                registry().getResourceDao(Patient.class).read(new IdType("Patient", id), new SystemRequestDetails());
        assertThat(kept.getNameFirstRep().getFamily()).isEqualTo("Known there already");
        assertThat(kept.getMeta().getVersionId()).isEqualTo("1");
    }

    private static void waitUntilDelivered(RunningAdapter adapter) throws Exception {
        adapter.waitUntilItSays("/ledger", "\"casesBehind\":0");
        adapter.waitUntilItSays("/deliveries", "\"resources\":0");
        assertThat(adapter.get("/deliveries")).contains("\"parkedCases\":0", "\"problem\":\"\"");
    }

    private static Resource found(Resource ours) {
        List<IBaseResource> found = registry()
                .getResourceDao(ours.fhirType())
                .search(
                        SearchParameterMap.newSynchronous(
                                "identifier", new TokenParam("urn:ietf:rfc:3986", "urn:uuid:" + ours.getIdPart())),
                        new SystemRequestDetails())
                .getAllResources();
        assertThat(found).hasSize(1);
        return (Resource) found.get(0);
    }

    private static Map<String, Integer> counts() {
        Map<String, Integer> counts = new TreeMap<>();
        for (String type : List.of("Patient", "Encounter", "EpisodeOfCare", "Observation", "Procedure", "Provenance")) {
            counts.put(type, all(type).size());
        }
        return counts;
    }

    private static List<IBaseResource> all(String type) {
        return registry()
                .getResourceDao(type)
                .search(SearchParameterMap.newSynchronous(), new SystemRequestDetails())
                .getAllResources();
    }

    // Another server's search judges ours: what is found by the same words on the same resources is the same.
    @Test
    void whatIsFoundHereIsFoundThere() throws Exception {
        try (RunningReceiver receiver = RunningReceiver.start(server);
                RunningAdapter adapter = RunningAdapter.deliveringTo(
                        receiver.address(), Files.createDirectory(folder.resolve("found")))) {
            adapter.post(Adapter.eventsOf("referred", Integer.MAX_VALUE, "found"));
            adapter.waitUntilItSays("/ledger", "\"casesBehind\":0");
            adapter.waitUntilItSays("/deliveries", "\"resources\":0");
            Searches searches = new Searches(adapter.base(), adapter.login(), receiver.address());
            List<String> patients = searches.patients();

            assertThat(patients).hasSize(1);
            assertThat(searches.differences(patients)).isEmpty();
            assertThat(searches.asked()).isGreaterThan(200);
        }
    }

    @SuppressWarnings("unchecked")
    private static List<String> take(Bundle bundle) {
        IFhirSystemDao<Bundle, Meta> dao = server.getBean("mySystemDaoR4", IFhirSystemDao.class);
        Bundle answer = dao.transaction(new SystemRequestDetails(), bundle.copy());
        return answer.getEntry().stream()
                .map(it -> it.getResponse().getStatus() + " " + it.getResponse().getEtag())
                .toList();
    }

    private static DaoRegistry registry() {
        return server.getBean(DaoRegistry.class);
    }

    private static Bundle ofCase(List<Bundle> bundles, String number) {
        return bundles.stream()
                .filter(it -> it.getEntry().stream()
                        .anyMatch(entry -> json(entry.getResource()).contains("/" + number + "\"")))
                .findFirst()
                .orElseThrow();
    }

    private static String patient(Bundle bundle) {
        return ids(bundle, "Patient").iterator().next();
    }

    private static Set<String> ids(Bundle bundle, String type) {
        return bundle.getEntry().stream()
                .map(Bundle.BundleEntryComponent::getResource)
                .filter(it -> it.fhirType().equals(type))
                .map(Resource::getIdPart)
                .collect(Collectors.toSet());
    }

    private static Set<String> observationsOf(String patient) {
        SearchParameterMap ofMother =
                SearchParameterMap.newSynchronous("subject", new ReferenceParam("Patient/" + patient));
        return registry()
                .getResourceDao("Observation")
                .search(ofMother, new SystemRequestDetails())
                .getAllResources()
                .stream()
                .map(it -> it.getIdElement().getIdPart())
                .collect(Collectors.toSet());
    }

    // Without what the server itself keeps: version, time and its own mark behind the source.
    private static String json(Resource resource) {
        Resource copy = resource.copy();
        copy.setId(resource.getIdPart());
        copy.getMeta().setVersionId(null).setLastUpdated(null);
        if (copy.getMeta().hasSource()) {
            copy.getMeta().setSource(copy.getMeta().getSource().replaceFirst("#.*", ""));
        }
        return FHIR.newJsonParser().encodeResourceToString(copy);
    }
}
