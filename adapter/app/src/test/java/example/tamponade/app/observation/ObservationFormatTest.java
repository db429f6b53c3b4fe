package example.tamponade.app.observation;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.Formats;
import example.tamponade.app.SampleCases;
import example.tamponade.app.Samples;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.event.BleedingChecked;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.CaseId;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.Laboratory;
import example.tamponade.core.event.Urine;
import example.tamponade.core.event.UterusChecked;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.conformance.Conformance;
import example.tamponade.fhir.conformance.Problem;
import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.terms.EventForm;
import example.tamponade.fhir.terms.Terms;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Set;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Page names are those of FHIR R4, http://hl7.org/fhir/R4. */
class ObservationFormatTest {

    private static final Terms TERMS = Terms.read();
    private static final ObservationFormat FORMAT = new ObservationFormat(TERMS, EventForm.read(), Formats.EVENTS);
    private static final Set<Class<?>> OBSERVABLE = Set.of(
            VitalSigns.class,
            BloodLoss.class,
            UterusChecked.class,
            BleedingChecked.class,
            Urine.class,
            Laboratory.class);
    private static final List<FactKind> KINDS = List.of(
            FactKind.CUMULATIVE_BLOOD_LOSS,
            FactKind.SHOCK_INDEX,
            FactKind.MEAN_ARTERIAL_PRESSURE,
            FactKind.PULSE_PRESSURE,
            FactKind.URINE_RATE,
            FactKind.ROLLING_URINE_RATE);

    @ParameterizedTest
    @ValueSource(strings = {"1e999999999", "1e-999999999", "1e2147483648"})
    void refusesANumberOutOfAllRangeAtItsPlace(String number) {
        String observation = """
                {"resourceType": "Observation", "status": "final", "code": {"coding": [
                {"system": "http://loinc.org", "code": "8867-4"}]}, "valueQuantity": {"value": %s}}""".formatted(number);

        assertThat(Formats.pieces(FORMAT, observation.getBytes(UTF_8)))
                .singleElement()
                .satisfies(it -> assertThat(((Intake.Refused) it.intake()).reasons())
                        .singleElement()
                        .satisfies(reason -> assertThat(reason.code()).isEqualTo(ReasonCode.INVALID_VALUE)));
    }

    @Test
    void theCaseAsObservationsGivesTheEventsItWasWrittenFrom() {
        List<EventEnvelope> events = Formats.events(Formats.pieces(FORMAT, Samples.observation("settled.json")));

        assertThat(events)
                .containsExactlyElementsOf(observable("settled").stream()
                        .map(ObservationFormatTest::withoutSource)
                        .toList());
        assertThat(series(events)).isEqualTo(series(SampleCases.events("settled")));
    }

    @Test
    void theSampleIsR4() {
        String sample = new String(Samples.observation("settled.json"), StandardCharsets.UTF_8);
        assertThat(Conformance.stock().check(sample).problems())
                .filteredOn(it -> it.severity() == Problem.Severity.ERROR)
                .isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"referred", "messy", "warnings"})
    void whatTheAdapterPublishesAsObservedGivesTheSameFactsWhenReadBack(String name) {
        CaseFile file = SampleCases.file(name);
        Bundle bundle = new Bundle().setType(Bundle.BundleType.COLLECTION);
        for (Resource resource : new CaseMapper(TERMS, "0.1.0").resources(file, List.of(), id -> "0".repeat(64))) {
            if (resource instanceof Observation) {
                bundle.addEntry().setResource(resource);
            }
        }
        List<Piece> pieces =
                Formats.pieces(FORMAT, FhirContext.forR4Cached().newJsonParser().encodeResourceToString(bundle));

        List<EventEnvelope> events = pieces.stream()
                .filter(it -> it.intake() instanceof Intake.Taken)
                .map(it -> ((Intake.Taken) it.intake()).event())
                .toList();
        assertThat(series(events)).isEqualTo(series(SampleCases.events(name)));
        assertThat(pieces.stream().flatMap(it -> Formats.reasons(it).stream()))
                .isNotEmpty()
                .allMatch(it -> it.code().code().equals("not-supported"));
    }

    /** Observation.status: value set observation-status. */
    @ParameterizedTest
    @CsvSource({
        "final, event",
        "amended, correction",
        "corrected, correction",
        "entered-in-error, retraction",
        "registered, refused",
        "preliminary, refused",
        "cancelled, refused",
        "unknown, refused"
    })
    void takesWhatIsAResultByItsStatus(String status, String outcome) {
        Observation pulse = pulse();
        pulse.setStatus(Observation.ObservationStatus.fromCode(status));
        Piece piece = read(pulse);
        EventEnvelope original = ((Intake.Taken) read(pulse()).intake()).event();

        assertThat(piece.intake() instanceof Intake.Taken taken ? kind(taken.event()) : "refused")
                .isEqualTo(outcome);
        if (piece.intake() instanceof Intake.Taken taken && !outcome.equals("event")) {
            assertThat(taken.event().eventId()).isNotEqualTo(original.eventId());
            assertThat(List.of(
                            String.valueOf(taken.event().corrects()),
                            String.valueOf(taken.event().retracts())))
                    .contains(original.eventId().toString());
        }
        if (outcome.equals("refused")) {
            assertThat(Formats.reasons(piece)).extracting(Reason::place).containsExactly("Observation.status");
        }
    }

    private static String kind(EventEnvelope event) {
        return event.retracts() != null ? "retraction" : event.corrects() != null ? "correction" : "event";
    }

    /** Vital signs profiles: observation-vitalsigns; units in UCUM. */
    @ParameterizedTest
    @CsvSource({
        "8867-4, 88, /min, pulse=88",
        "9279-1, 18, /min, respirations=18",
        "2708-6, 97, %, oxygenSaturation=97",
        "59408-5, 97, %, oxygenSaturation=97",
        "8310-5, 36.8, Cel, temperatureC=36.8",
        "8310-5, 98.6, [degF], temperatureC=37"
    })
    void readsEachVitalSignByItsLoincCode(String code, String value, String unit, String property) {
        Observation observation = pulse();
        observation.getCode().getCodingFirstRep().setCode(code);
        observation.getValueQuantity().setValue(new BigDecimal(value)).setCode(unit);

        VitalSigns signs =
                (VitalSigns) Formats.events(List.of(read(observation))).get(0).data();

        assertThat(signs.toString().replaceAll("(\\d)\\.0+\\b", "$1")).contains(property);
    }

    @Test
    void takesAPressureThatCouldNotBeHeardAsASignOfItsOwn() {
        Observation pressure = pulse();
        pressure.setValue(null);
        pressure.getCode().getCodingFirstRep().setCode("85354-9");
        for (String code : List.of("8480-6", "8462-4")) {
            Observation.ObservationComponentComponent component = pressure.addComponent();
            component.getCode().addCoding().setSystem("http://loinc.org").setCode(code);
            component
                    .getDataAbsentReason()
                    .addCoding(TERMS.coding(TERMS.system("bedside-item"), "pressure-unrecordable"));
        }

        VitalSigns signs =
                (VitalSigns) Formats.events(List.of(read(pressure))).get(0).data();

        assertThat(signs.pressureUnrecordable()).isTrue();
        assertThat(signs.systolic()).isNull();
    }

    /** The published example heart-rate (Observation/heart-rate), from memory, without its narrative. */
    @Test
    void theHeartRateExampleOfR4LacksOnlyWhoseItIsAndWhenExactly() {
        Piece piece = Formats.pieces(FORMAT, """
                {"resourceType":"Observation","id":"heart-rate",
                "meta":{"profile":["http://hl7.org/fhir/StructureDefinition/vitalsigns"]},"status":"final",
                "category":[{"coding":[{"system":"http://terminology.hl7.org/CodeSystem/observation-category",
                "code":"vital-signs","display":"Vital Signs"}],"text":"Vital Signs"}],
                "code":{"coding":[{"system":"http://loinc.org","code":"8867-4","display":"Heart rate"}],
                "text":"Heart rate"},"subject":{"reference":"Patient/example"},"effectiveDateTime":"1999-07-02",
                "valueQuantity":{"value":44,"unit":"beats/minute","system":"http://unitsofmeasure.org","code":"/min"}}
                """).get(0);

        assertThat(Formats.reasons(piece))
                .extracting(Reason::path)
                .containsOnly("/caseId", "/recordedBy", "/facilityId", "/eventId", "/occurredAt", "/recordedAt");
        assertThat(Formats.reasons(piece)).allMatch(it -> !it.remedy().isBlank() && it.place() != null);
    }

    @Test
    void aCaseOfAnotherFacilityIsNamedBeforeItsNumber() {
        String plain = new String(Samples.observation("plain.json"), UTF_8);
        assertThat(Formats.events(Formats.pieces(FORMAT, plain.replace("\"FGL-2026", "\"sorrelwick-ch/FGL-2026"))))
                .extracting(EventEnvelope::caseId)
                .containsOnly(new CaseId("sorrelwick-ch", "FGL-2026-0117"));
    }

    @Test
    void refusesEveryOtherResourceOfABundleAndTakesTheObservations() {
        String pulse = FhirContext.forR4Cached().newJsonParser().encodeResourceToString(pulse());
        List<Piece> pieces = Formats.pieces(FORMAT, """
                {"entry":[{"resource":{"resourceType":"Patient"}},{"resource":%s},{"request":{"method":"DELETE"}}],
                "type":"batch","resourceType":"Bundle"}
                """.formatted(pulse));

        assertThat(pieces)
                .extracting(Piece::place)
                .containsExactly("Bundle.entry[0].resource", "Bundle.entry[1].resource", "Bundle.entry[2]");
        assertThat(pieces).extracting(it -> it.intake() instanceof Intake.Taken).containsExactly(false, true, false);
        assertThat(Formats.reasons(pieces.get(0)).get(0).remedy()).contains("Observation");
    }

    @Test
    void takesFromAMessyBundleOnlyWhatWasReadAtTheBedside() {
        List<Piece> pieces = Formats.pieces(FORMAT, Samples.observation("messy.json"));
        assertThat(pieces)
                .extracting(it -> it.intake() instanceof Intake.Taken)
                .containsExactly(false, true, false, false);
    }

    @Test
    void aBrokenLineLeavesTheOthersWhole() {
        String pulse = FhirContext.forR4Cached().newJsonParser().encodeResourceToString(pulse());
        List<Piece> pieces = Formats.pieces(FORMAT, pulse + "\n{\"resourceType\":\n\n" + pulse);
        assertThat(pieces).extracting(Piece::place).containsExactly("line 1", "line 2", "line 4");
        assertThat(pieces).extracting(it -> it.intake() instanceof Intake.Taken).containsExactly(true, false, true);
    }

    private static Piece read(Observation observation) {
        List<Piece> pieces =
                Formats.pieces(FORMAT, FhirContext.forR4Cached().newJsonParser().encodeResourceToString(observation));
        assertThat(pieces).hasSize(1);
        return pieces.get(0);
    }

    // The first of the sample's observations is a pulse; here it goes by a number that its sender gave it.
    private static Observation pulse() {
        Bundle sample = FhirContext.forR4Cached()
                .newJsonParser()
                .parseResource(Bundle.class, new String(Samples.observation("settled.json"), StandardCharsets.UTF_8));
        Observation pulse = (Observation) sample.getEntryFirstRep().getResource();
        pulse.addIdentifier().setSystem("urn:example:fernglade:monitor").setValue("17");
        return pulse;
    }

    private static List<EventEnvelope> observable(String name) {
        return SampleCases.events(name).stream()
                .filter(it -> it.data() != null && OBSERVABLE.contains(it.data().getClass()))
                .toList();
    }

    private static EventEnvelope withoutSource(EventEnvelope it) {
        return new EventEnvelope(
                it.eventId(),
                it.caseId(),
                it.facilityId(),
                it.occurredAt(),
                it.recordedAt(),
                it.recordedBy(),
                null,
                it.corrects(),
                it.retracts(),
                it.data());
    }

    private static List<String> series(List<EventEnvelope> events) {
        List<EventEnvelope> ofCase =
                events.stream().filter(it -> it.caseId() != null).toList();
        CaseFile file = CaseFile.of(ofCase.get(0).caseId(), CareProtocol.standard(), ofCase);
        return file.facts().stream()
                .filter(it -> it instanceof DerivedValue value && KINDS.contains(value.kind()))
                .map(DerivedValue.class::cast)
                .map(it -> it.kind() + " " + it.at().toInstant() + " " + it.value())
                .sorted()
                .toList();
    }
}
