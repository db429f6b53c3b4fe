package example.tamponade.fhir.mapping;

import static example.tamponade.fhir.Checks.assertQuantity;
import static example.tamponade.fhir.Checks.codes;
import static example.tamponade.fhir.Checks.component;
import static example.tamponade.fhir.Checks.extension;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.Shared;
import example.tamponade.fhir.terms.Narratives;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Condition;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Provenance;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.Test;

class CorrectionsTest {

    private static final Mapped CASE = Mapped.ofInventedCase();

    @Test
    void aCorrectionKeepsTheIdAndSaysSo() {
        EventEnvelope correction = InventedCase.events().stream()
                .filter(it -> it.corrects() != null)
                .findFirst()
                .orElseThrow();
        String id = new Ids(Shared.TERMS.base()).of(correction.corrects(), "blood-pressure");
        Observation pressure = CASE.all(Observation.class, "vital-blood-pressure").stream()
                .filter(it -> it.getIdPart().equals(id))
                .findFirst()
                .orElseThrow();
        assertQuantity(component(pressure, "8480-6").getValue(), "95", "mm[Hg]");
        assertThat(pressure.getStatus()).isEqualTo(Observation.ObservationStatus.CORRECTED);
        assertThat(pressure.getMeta().getSource()).isEqualTo("urn:uuid:" + correction.eventId());
        assertThat(Narratives.text(pressure.getText())).contains("Corrected after it was first recorded.");
    }

    @Test
    void everyTypeOfEventCanBeWithdrawn() {
        List<EventEnvelope> events = new ArrayList<>(InventedCase.events());
        events.removeIf(it -> it.retracts() != null || it.corrects() != null);
        List<EventEnvelope> all = new ArrayList<>(events);
        events.forEach(it -> all.add(InventedCase.retractionOf(it)));
        assertThat(InventedCase.file(all).entries()).isEmpty();
        Mapped withdrawn = Mapped.ofCase(all);
        assertThat(Shared.CONFORMANCE.check(withdrawn.all()).problems()).isEmpty();
        assertThat(withdrawn.all()).allSatisfy(it -> Mapped.references(it).forEach(withdrawn::at));
        Set<String> stateless = Set.of(
                "mother",
                "facility",
                "facility-organization",
                "staff-member",
                "recorder",
                "adapter-software",
                "event-provenance");
        assertThat(withdrawn.all())
                .filteredOn(it -> !stateless.contains(Mapped.profileOf(it)))
                .allSatisfy(it -> assertThat(state(it)).as(it.fhirType()).isEqualTo("entered-in-error"));
        Set<String> types = withdrawn.all().stream().map(Resource::fhirType).collect(Collectors.toSet());
        assertThat(types).contains("Condition", "DeviceUseStatement", "MedicationAdministration", "Task", "Encounter");
    }

    @Test
    void whatWasWithdrawnStaysReadable() {
        Observation bleeding = CASE.all(Observation.class, "bleeding-amount").get(1);
        assertThat(bleeding.getStatus()).isEqualTo(Observation.ObservationStatus.ENTEREDINERROR);
        assertThat(Narratives.text(bleeding.getText()))
                .contains("Bleeding: None.")
                .contains("Entered in error");
    }

    @Test
    void aFactThatHoldsNoMoreCanBeMarkedWhereItIsStored() {
        Resource stored = CASE.all(Flag.class, "case-flag").get(0);
        Resource marked = Shared.MAPPER.enteredInError(stored);
        assertThat(state(marked)).isEqualTo("entered-in-error");
        assertThat(state(stored)).isNotEqualTo("entered-in-error");
        assertThat(Shared.CONFORMANCE.check(marked).problems()).isEmpty();
    }

    @Test
    void everyEventThatCameHasItsProvenance() {
        List<EventEnvelope> events = chain();
        Mapped mapped = Mapped.ofCase(events);
        assertThat(mapped.all(Provenance.class, "event-provenance").stream()
                        .map(it ->
                                it.getEntityFirstRep().getWhat().getIdentifier().getValue()))
                .containsExactlyInAnyOrderElementsOf(
                        events.stream().map(it -> "urn:uuid:" + it.eventId()).toList());
        assertThat(mapped.all()).allSatisfy(it -> Mapped.references(it).forEach(mapped::at));
        assertThat(Shared.CONFORMANCE.check(mapped.all()).problems()).isEmpty();
    }

    @Test
    void aReadingThatACorrectionLeavesOutIsEnteredInError() {
        Observation pulse = Mapped.ofCase(chain()).observation("vital-pulse");
        assertThat(pulse.getStatus()).isEqualTo(Observation.ObservationStatus.ENTEREDINERROR);
        assertQuantity(pulse.getValue(), "100", "/min");
    }

    @Test
    void correctionsAndRetractionsAreNamedByTheirProvenance() {
        Provenance correction = CASE.all(Provenance.class, "event-provenance").stream()
                .filter(it -> !extension(it, "corrects").isEmpty())
                .findFirst()
                .orElseThrow();
        assertThat(extension(correction, "corrects").get(0).primitiveValue()).startsWith("urn:uuid:");
        Provenance retraction = CASE.all(Provenance.class, "event-provenance").stream()
                .filter(it -> !extension(it, "retracts").isEmpty())
                .findFirst()
                .orElseThrow();
        assertThat(codes(retraction.getActivity())).containsExactly("event-type#retraction");
        assertThat(CASE.at(retraction.getTargetFirstRep())).isInstanceOf(Observation.class);
    }

    // Signs with a pulse, corrected to a pressure alone, corrected again, and the last correction retracted.
    private static List<EventEnvelope> chain() {
        VitalSigns both = signs("100", "110");
        EventEnvelope first = InventedCase.eventsOf(both).get(0);
        EventEnvelope second = InventedCase.correctionOf(first, 20, signs(null, "101"));
        EventEnvelope third = InventedCase.correctionOf(second, 30, signs(null, "99"));
        return List.of(first, second, third, InventedCase.retractionOf(third));
    }

    private static VitalSigns signs(String pulse, String systolic) {
        return new VitalSigns(
                pulse == null ? null : new BigDecimal(pulse),
                new BigDecimal(systolic),
                null,
                null,
                null,
                null,
                null,
                null);
    }

    private static String state(Resource resource) {
        if (resource instanceof Condition condition) {
            return condition.getVerificationStatus().getCodingFirstRep().getCode();
        }
        return resource.getNamedProperty("status").getValues().get(0).primitiveValue();
    }
}
