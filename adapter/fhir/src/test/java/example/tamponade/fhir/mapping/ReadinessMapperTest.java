package example.tamponade.fhir.mapping;

import static example.tamponade.fhir.Checks.assertQuantity;
import static example.tamponade.fhir.Checks.component;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.ReadinessChecked;
import example.tamponade.core.event.StoredSet;
import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.Shared;
import java.time.LocalDate;
import java.util.List;
import org.hl7.fhir.r4.model.DetectedIssue;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.Location;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.junit.jupiter.api.Test;

class ReadinessMapperTest {

    private static final Mapped FACILITY = Mapped.ofFacility(InventedCase.facilityEvents());

    @Test
    void everyResourceConformsAndNoneIsOfAMother() {
        assertThat(Shared.CONFORMANCE.check(FACILITY.all()).problems()).isEmpty();
        assertThat(FACILITY.all()).noneMatch(it -> it instanceof Patient || it instanceof Encounter);
        assertThat(FACILITY.all()).allSatisfy(it -> Mapped.references(it).forEach(FACILITY::at));
    }

    @Test
    void aCheckIsAboutTheFacility() {
        Mapped one = Mapped.ofFacility(InventedCase.facilityEvents().subList(0, 1));
        Observation check = one.observation("readiness");
        assertThat(one.at(check.getSubject())).isInstanceOf(Location.class);
        assertThat(component(check, "readiness-set-present")
                        .getValueBooleanType()
                        .booleanValue())
                .isTrue();
        assertThat(component(check, "readiness-blood-reachable")
                        .getValueBooleanType()
                        .booleanValue())
                .isFalse();
        assertQuantity(component(check, "readiness-theatre-minutes").getValue(), "90", "min");
        Device set = one.one(Device.class, "stored-tamponade-set");
        assertThat(one.at(set.getLocation())).isInstanceOf(Location.class);
        assertThat(set.getLotNumber()).isEqualTo("INV-17");
    }

    // 10,000 min are possible and hardly seen.
    @Test
    void aDoubtAboutACheckIsAboutNoMother() {
        EventEnvelope check = InventedCase.facilityEvents().get(0);
        EventEnvelope doubtful = new EventEnvelope(
                check.eventId(),
                null,
                check.facilityId(),
                check.occurredAt(),
                check.recordedAt(),
                check.recordedBy(),
                null,
                null,
                null,
                new ReadinessChecked(new StoredSet(true, true, null, null, true), true, true, true, 10_000));
        Mapped one = Mapped.ofFacility(List.of(doubtful));

        DetectedIssue doubt = one.one(DetectedIssue.class, "record-issue");
        assertThat(doubt.hasPatient()).isFalse();
        assertThat(Mapped.references(doubt)).isNotEmpty().allSatisfy(one::at);
        assertThat(Shared.CONFORMANCE.check(one.all()).problems()).isEmpty();
    }

    @Test
    void correctionAndRetractionTakeEffect() {
        List<Observation> checks = FACILITY.all(Observation.class, "readiness");
        assertThat(checks.stream().map(Observation::getStatus))
                .containsExactly(Observation.ObservationStatus.CORRECTED, Observation.ObservationStatus.ENTEREDINERROR);
        assertThat(component(checks.get(0), "readiness-blood-reachable")
                        .getValueBooleanType()
                        .booleanValue())
                .isTrue();
    }

    // The Lancet Commission on Global Surgery 2015 asks for surgery within 2 h.
    @Test
    void whatAFacilityLacksIsAWarningOfTheFacility() {
        Mapped lacking = Mapped.ofFacility(InventedCase.eventsOfFacility(
                new ReadinessChecked(
                        new StoredSet(true, false, null, LocalDate.parse("2026-02-28"), false), true, true, true, 121),
                new ReadinessChecked(new StoredSet(true, true, null, null, true), true, true, true, 120)));
        List<Flag> flags = lacking.all(Flag.class, "facility-flag");

        assertThat(flags)
                .extracting(it -> it.getCode().getText())
                .containsExactlyInAnyOrder(
                        "The tamponade set is not complete, not within reach, past its date.",
                        "No operating theatre can be reached in the time that the plan allows.");
        assertThat(flags).allSatisfy(it -> {
            assertThat(lacking.at(it.getSubject())).isInstanceOf(Location.class);
            assertThat(it.getStatus()).isEqualTo(Flag.FlagStatus.INACTIVE);
            assertThat(Shared.CONFORMANCE.check(it).problems()).isEmpty();
        });
    }

    @Test
    void aSetThatIsNotThereIsNoDevice() {
        assertThat(FACILITY.all(Device.class, "stored-tamponade-set")).hasSize(1);
    }
}
