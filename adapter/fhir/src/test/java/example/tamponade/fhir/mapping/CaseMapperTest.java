package example.tamponade.fhir.mapping;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.EventType;
import example.tamponade.core.event.Note;
import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.PackageFiles;
import example.tamponade.fhir.Shared;
import example.tamponade.fhir.terms.Narratives;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.TimeZone;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.DetectedIssue;
import org.hl7.fhir.r4.model.DomainResource;
import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CaseMapperTest {

    private static final Mapped RECORD = Mapped.ofInventedCase();

    @Test
    void everyResourceConformsWithoutAWarning() {
        assertThat(Shared.CONFORMANCE.check(RECORD.all()).problems()).isEmpty();
    }

    @Test
    void theCalmNightAndTheChecksConformToo() {
        assertThat(Shared.CONFORMANCE
                        .check(Mapped.of(InventedCase.calmNight()).all())
                        .problems())
                .isEmpty();
        assertThat(Shared.CONFORMANCE
                        .check(Mapped.ofFacility(InventedCase.twoDaysOfChecks()).all())
                        .problems())
                .isEmpty();
    }

    @Test
    void theInventedCaseHasEveryTypeOfEvent() {
        Set<EventType> types = InventedCase.events().stream()
                .filter(it -> it.data() != null)
                .map(it -> EventType.of(it.data()))
                .collect(Collectors.toSet());
        assertThat(types)
                .containsAll(EnumSet.complementOf(EnumSet.of(EventType.READINESS_CHECKED)))
                .hasSize(EventType.values().length - 1);
    }

    @Test
    void everyProfileOfThePackageIsUsed() {
        Set<String> used = Stream.of(
                        RECORD.all(),
                        Mapped.of(InventedCase.calmNight()).all(),
                        Mapped.ofFacility(InventedCase.facilityEvents()).all(),
                        Mapped.ofFacility(InventedCase.twoDaysOfChecks()).all())
                .flatMap(List::stream)
                .map(Mapped::profileOf)
                .collect(Collectors.toSet());
        // Bundles, Composition and OperationOutcome are made in other packages and checked there.
        Set<String> elsewhere = Set.of("case-bundle", "case-composition", "case-transaction", "refusal");
        assertThat(PackageFiles.profiles()).containsAll(used);
        assertThat(PackageFiles.profiles())
                .allSatisfy(it -> assertThat(used.contains(it) || elsewhere.contains(it))
                        .as(it)
                        .isTrue());
    }

    @Test
    void everyReferenceLeadsToAResourceOfTheCase() {
        assertThat(RECORD.all())
                .allSatisfy(resource -> Mapped.references(resource).forEach(RECORD::at));
    }

    @Test
    void noIdComesTwice() {
        assertThat(RECORD.all().stream().map(Resource::getIdPart)).doesNotHaveDuplicates();
    }

    @Test
    void aSecondRunGivesTheSameBytes() {
        assertThat(json(Mapped.ofInventedCase().all())).isEqualTo(json(RECORD.all()));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void theOrderOfArrivalChangesNothing(long seed) {
        List<EventEnvelope> shuffled = new ArrayList<>(InventedCase.events());
        Collections.shuffle(shuffled, new Random(seed));
        assertThat(json(Mapped.ofCase(shuffled).all())).isEqualTo(json(RECORD.all()));
    }

    @Test
    void zoneAndLocaleOfTheMachineChangeNothing() {
        TimeZone zone = TimeZone.getDefault();
        Locale locale = Locale.getDefault();
        try {
            TimeZone.setDefault(TimeZone.getTimeZone("Pacific/Chatham"));
            Locale.setDefault(Locale.forLanguageTag("tr-TR"));
            assertThat(json(Mapped.ofInventedCase().all())).isEqualTo(json(RECORD.all()));
        } finally {
            TimeZone.setDefault(zone);
            Locale.setDefault(locale);
        }
    }

    @Test
    void severalThreadsMayMapAtOnce() {
        List<String> expected = json(RECORD.all());
        assertThat(IntStream.range(0, 8)
                        .parallel()
                        .mapToObj(it -> json(Mapped.ofInventedCase().all())))
                .allSatisfy(it -> assertThat(it).isEqualTo(expected));
    }

    @Test
    void everyResourceCanBeReadAndNamesItsProfile() {
        assertThat(RECORD.all()).allSatisfy(it -> {
            assertThat(it.getMeta().getProfile()).hasSize(1);
            assertThat(it.getMeta().getProfile().get(0).getValue()).startsWith(Shared.TERMS.base());
            assertThat(it.getMeta().hasLastUpdated()).isFalse();
            assertThat(Narratives.text(((DomainResource) it).getText())).isNotBlank();
        });
    }

    @Test
    void everyEventBornResourceNamesTheEventThatStands() {
        Set<String> sources = Stream.concat(
                        InventedCase.file().entries().stream().map(CaseEntry::event),
                        InventedCase.file().withdrawn().stream().flatMap(it -> Stream.of(it.event(), it.retraction())))
                .map(it -> "urn:uuid:" + it.eventId())
                .collect(Collectors.toSet());
        // Their provenance, and what a correction left out, still names them.
        Set<String> replaced = InventedCase.events().stream()
                .map(EventEnvelope::corrects)
                .filter(Objects::nonNull)
                .map(it -> "urn:uuid:" + it)
                .collect(Collectors.toSet());
        Set<String> ofNoEvent =
                Set.of("facility", "facility-organization", "staff-member", "recorder", "adapter-software");
        assertThat(RECORD.all())
                .filteredOn(it -> !ofNoEvent.contains(Mapped.profileOf(it)))
                .filteredOn(it -> !replaced.contains(it.getMeta().getSource()))
                .allSatisfy(it -> assertThat(it.getMeta().getSource()).isIn(sources));
    }

    @Test
    void derivedValuesAndWarningsCarryTheCaution() {
        assertThat(RECORD.all())
                .filteredOn(it -> Mapped.profileOf(it).equals("case-flag")
                        || it instanceof Observation observation && observation.hasDerivedFrom())
                .isNotEmpty()
                .allSatisfy(it -> assertThat(Narratives.text(((DomainResource) it).getText()))
                        .contains(CaseMapper.CAUTION));
    }

    // The published fragments hold what was confirmed in two public sources, and nothing else.
    @Test
    void everyStandardCodeIsAConfirmedOne() {
        List<Coding> standard = Mapped.ofInventedCase().all().stream()
                .flatMap(it ->
                        FhirContext.forR4Cached()
                                .newTerser()
                                .getAllPopulatedChildElementsOfType(it, Coding.class)
                                .stream())
                .filter(it -> Set.of(
                                "http://loinc.org",
                                "http://snomed.info/sct",
                                "http://hl7.org/fhir/sid/icd-10",
                                "http://www.whocc.no/atc")
                        .contains(it.getSystem()))
                .toList();
        assertThat(standard).isNotEmpty().allMatch(it -> Shared.TERMS.has(it.getSystem(), it.getCode()));
    }

    // What was observed could be known when it was recorded, which may be long behind.
    @Test
    void whatWasObservedIsIssuedWhenItWasRecorded() {
        Map<UUID, EventEnvelope> events =
                InventedCase.events().stream().collect(Collectors.toMap(EventEnvelope::eventId, it -> it));
        List<Observation> issued = Mapped.ofInventedCase().all().stream()
                .filter(it -> it instanceof Observation observation && !observation.hasMethod())
                .map(Observation.class::cast)
                .toList();
        assertThat(issued).hasSizeGreaterThan(10).allSatisfy(it -> {
            UUID event = UUID.fromString(it.getMeta().getSource().substring("urn:uuid:".length()));
            assertThat(it.getIssued().toInstant())
                    .isEqualTo(Objects.requireNonNull(events.get(event))
                            .recordedAt()
                            .toInstant());
        });
    }

    // R4: "the date and time this version of the observation was made available to providers".
    @Test
    void whatWasDerivedIsIssuedNoEarlierThanWhatItIsDerivedFrom() {
        List<Observation> derived = RECORD.all().stream()
                .filter(it -> it instanceof Observation observation && observation.hasMethod())
                .map(Observation.class::cast)
                .toList();
        assertThat(derived).hasSizeGreaterThan(50).allSatisfy(it -> {
            assertThat(it.hasIssued()).isTrue();
            assertThat(it.getDerivedFrom())
                    .map(from -> ((Observation) RECORD.at(from)).getIssued())
                    .allSatisfy(from -> assertThat(it.getIssued()).isAfterOrEqualTo(from));
        });
    }

    // "If the observation is a vital sign it SHALL conform to this profile", whose code is one of these: HL7 FHIR R4,
    // Vital Signs, observation-vitalsignresult.
    @Test
    void whatIsCalledAVitalSignHasACodeOfItsProfile() {
        Set<String> codes = Set.of(
                "85353-1", "9279-1", "8867-4", "2708-6", "8310-5", "8302-2", "29463-7", "39156-5", "85354-9", "8480-6",
                "8462-4", "8478-0");
        List<Observation> signs = Mapped.ofInventedCase().all().stream()
                .filter(it -> it instanceof Observation observation
                        && observation.getCategory().stream()
                                .anyMatch(category ->
                                        category.getCodingFirstRep().getCode().equals("vital-signs")
                                                && category.getCodingFirstRep()
                                                        .getSystem()
                                                        .contains("terminology.hl7.org")))
                .map(Observation.class::cast)
                .toList();
        assertThat(signs)
                .hasSizeGreaterThan(8)
                .allMatch(it -> it.getCode().getCoding().stream().anyMatch(coding -> codes.contains(coding.getCode())));
    }

    @Test
    void aCaseThatNoEventOpenedStillHasAMotherAndAStay() {
        Mapped record = Mapped.of(new Note("First line of a case whose opening is late."));
        assertThat(Shared.CONFORMANCE.check(record.all()).problems()).isEmpty();
        Patient mother = record.one(Patient.class, "mother");
        assertThat(mother.hasIdentifier()).isFalse();
        assertThat(mother.hasName()).isFalse();
        assertThat(record.one(Encounter.class, "maternity-encounter")
                        .getPeriod()
                        .hasStart())
                .isTrue();
        assertThat(record.one(DetectedIssue.class, "record-issue")
                        .getCode()
                        .getCodingFirstRep()
                        .getCode())
                .isEqualTo("case-not-opened");
    }

    @Test
    void aCaseWithoutEventsHasNoResources() {
        assertThat(Mapped.ofCase(List.of()).all()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void whatIsMappedAChangeAtATimeIsWhatIsMappedAtOnce(long seed) {
        List<EventEnvelope> events = InventedCase.events();
        CaseFile file = InventedCase.file(events);
        Random random = new Random(seed);
        Map<String, String> pieces = new TreeMap<>();
        List<Changes> changes =
                Stream.generate(() -> part(file, events, random)).limit(60).toList();
        changes.forEach(it -> Shared.MAPPER
                .map(file, it, InventedCase::digest)
                .forEach(resource -> pieces.put(resource.getIdPart(), Mapped.json(resource))));
        Map<String, String> whole = new TreeMap<>();
        RECORD.all().forEach(it -> whole.put(it.getIdPart(), Mapped.json(it)));
        assertThat(pieces).isEqualTo(whole);
    }

    // An entry with the facts that hang on it, some of what was withdrawn, and now and then what was replaced.
    private static Changes part(CaseFile file, List<EventEnvelope> events, Random random) {
        return new Changes(
                false,
                some(file.entries(), random),
                file.facts(),
                some(file.withdrawn(), random),
                random.nextInt(4) == 0 ? events : List.of());
    }

    private static <T> List<T> some(Collection<T> all, Random random) {
        return all.stream().filter(it -> random.nextInt(4) == 0).toList();
    }

    private static List<String> json(List<Resource> resources) {
        return resources.stream().map(Mapped::json).toList();
    }
}
