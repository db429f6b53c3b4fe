package example.tamponade.fhir.mapping;

import static example.tamponade.fhir.Checks.assertQuantity;
import static example.tamponade.fhir.Checks.component;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.Shared;
import java.util.List;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.Encounter;
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

    @Test
    void aSetThatIsNotThereIsNoDevice() {
        assertThat(FACILITY.all(Device.class, "stored-tamponade-set")).hasSize(1);
    }
}
