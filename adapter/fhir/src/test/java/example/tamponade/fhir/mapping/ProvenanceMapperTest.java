package example.tamponade.fhir.mapping;

import static example.tamponade.fhir.Checks.assertTime;
import static example.tamponade.fhir.Checks.codes;
import static example.tamponade.fhir.Checks.extension;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.event.EventEnvelope;
import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.Mapped;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.DetectedIssue;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.PractitionerRole;
import org.hl7.fhir.r4.model.Provenance;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.Test;

class ProvenanceMapperTest {

    private static final Mapped CASE = Mapped.ofInventedCase();

    @Test
    void everyEventSaysWhoWhenAndFromWhat() {
        EventEnvelope opening = InventedCase.events().get(0);
        Provenance provenance = CASE.all(Provenance.class, "event-provenance").get(0);
        assertTime(provenance.getOccurredDateTimeType(), "2026-03-01T22:00:00+05:45");
        assertTime(provenance.getRecordedElement(), "2026-03-01T22:02:00+05:45");
        assertThat(codes(provenance.getActivity())).containsExactly("event-type#case-opened");
        assertThat(codes(provenance.getAgentFirstRep().getType()))
                .containsExactly("provenance-participant-type#author");
        PractitionerRole recorder =
                (PractitionerRole) CASE.at(provenance.getAgentFirstRep().getWho());
        assertThat(recorder.getIdentifierFirstRep().getValue()).isEqualTo("hb-mw-01");
        assertThat(codes(recorder.getCodeFirstRep())).containsExactly("staff-role#midwife");
        assertThat(extension(provenance, "payload-digest").get(0).primitiveValue())
                .isEqualTo("sha-256:" + InventedCase.digest(opening.eventId()));
        assertThat(codes(extension(provenance, "event-source").get(0))).containsExactly("event-source#form");
        assertThat(provenance.getEntityFirstRep().getRole()).isEqualTo(Provenance.ProvenanceEntityRole.SOURCE);
        assertThat(provenance.getTarget().stream().map(it -> CASE.at(it).fhirType()))
                .startsWith("Patient", "Encounter", "EpisodeOfCare", "Consent", "Observation");
    }

    @Test
    void everyResourceOfAnEventIsATarget() {
        Set<Resource> targets = CASE.all(Provenance.class, "event-provenance").stream()
                .flatMap(it -> it.getTarget().stream())
                .map(CASE::at)
                .collect(Collectors.toSet());
        Set<String> ofNoEvent = Set.of(
                "facility",
                "facility-organization",
                "staff-member",
                "recorder",
                "adapter-software",
                "event-provenance",
                "derivation-provenance",
                "case-flag",
                "record-issue");
        assertThat(CASE.all())
                .filteredOn(it -> !ofNoEvent.contains(Mapped.profileOf(it)))
                .filteredOn(it -> !(it instanceof Observation observation && isDerived(observation)))
                .allSatisfy(it -> assertThat(targets).contains(it));
    }

    @Test
    void everyDerivedResourceHasTheSoftwareAsAssembler() {
        List<Provenance> derivations = CASE.all(Provenance.class, "derivation-provenance");
        Set<Resource> targets = derivations.stream()
                .flatMap(it -> it.getTarget().stream())
                .map(CASE::at)
                .collect(Collectors.toSet());
        assertThat(CASE.all())
                .filteredOn(it -> it instanceof Flag
                        || it instanceof DetectedIssue
                        || it instanceof Observation observation && isDerived(observation))
                .isNotEmpty()
                .allSatisfy(it -> assertThat(targets).contains(it));
        assertThat(derivations).allSatisfy(it -> {
            assertThat(codes(it.getAgentFirstRep().getType())).containsExactly("provenance-participant-type#assembler");
            assertThat(CASE.at(it.getAgentFirstRep().getWho())).isInstanceOf(Device.class);
            assertThat(it.getEntity()).isNotEmpty();
            assertThat(extension(it, "care-protocol")).hasSize(1);
        });
    }

    private static boolean isDerived(Observation observation) {
        return observation.getCategory().stream().anyMatch(it -> codes(it).contains("observation-group#derived"));
    }
}
