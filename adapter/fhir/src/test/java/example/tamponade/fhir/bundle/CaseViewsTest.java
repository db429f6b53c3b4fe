package example.tamponade.fhir.bundle;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.Consent;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.Note;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.Shared;
import example.tamponade.fhir.terms.Narratives;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Provenance;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

class CaseViewsTest {

    private static final CaseBundles BUNDLES = new CaseBundles(Shared.TERMS, Shared.MAPPER);

    static Stream<Arguments> viewsOfCases() {
        List<List<EventEnvelope>> cases = List.of(
                InventedCase.events(),
                InventedCase.eventsOf(InventedCase.calmNight()),
                InventedCase.longCase(300),
                InventedCase.eventsOf(new Note("only this")));
        return Arrays.stream(CaseView.values()).flatMap(view -> cases.stream().map(it -> Arguments.of(view, it)));
    }

    @ParameterizedTest
    @MethodSource("viewsOfCases")
    void everyViewConformsAndHoldsOrNamesWhatItPointsTo(CaseView view, List<EventEnvelope> events) {
        List<Resource> resources = view(view, events);
        CaseFile file = InventedCase.file(events);
        Bundle document = BUNDLES.document(file, view, resources);

        assertThat(Shared.CONFORMANCE.check(document).problems()).isEmpty();
        assertThat(Shared.CONFORMANCE
                        .check(BUNDLES.transaction(file, resources))
                        .problems())
                .isEmpty();
        Set<String> held = resources.stream()
                .map(it -> it.fhirType() + "/" + it.getIdPart())
                .collect(Collectors.toSet());
        assertThat(document.getEntry())
                .allSatisfy(entry -> Mapped.references(entry.getResource())
                        .forEach(it -> assertThat(it.hasReference() ? held.contains(it.getReference()) : isAddress(it))
                                .as(it.getReference())
                                .isTrue()));
    }

    private static boolean isAddress(Reference reference) {
        return !reference.hasIdentifier()
                || reference.getIdentifier().getValue().startsWith(Shared.TERMS.base())
                || reference.getIdentifier().hasSystem();
    }

    @Test
    void theCourseHoldsWhatWasRecordedAndTheLatestOfEachValue() {
        List<Resource> all = view(CaseView.FULL, InventedCase.longCase(300));
        List<Resource> course = view(CaseView.COURSE, InventedCase.longCase(300));

        assertThat(course.size()).isLessThan(all.size() / 2);
        assertThat(ids(course))
                .containsAll(ids(all.stream()
                        .filter(it -> !(it instanceof Observation observation && observation.hasDerivedFrom()))
                        .filter(it -> !Profiles.of(it).equals("derivation-provenance"))
                        .filter(it -> !Profiles.isEnteredInError(it))
                        .filter(it -> !isDerived(it))
                        .toList()));
        assertThat(codes(course)).containsAll(codes(all));
        assertThat(course.stream().filter(Provenance.class::isInstance)).hasSizeGreaterThanOrEqualTo(300);
    }

    @Test
    void theHandoverHoldsTheLatestReadingsAndEveryWarningThatStands() {
        List<Resource> all = view(CaseView.FULL, InventedCase.events());
        List<Resource> handover = view(CaseView.HANDOVER, InventedCase.events());

        assertThat(handover.size()).isLessThan(all.size() / 2);
        assertThat(ids(handover))
                .containsAll(ids(all.stream()
                        .filter(it -> it instanceof Flag flag && flag.getStatus() == Flag.FlagStatus.ACTIVE)
                        .toList()));
        for (String profile :
                List.of("vital-pulse", "shock-index", "cumulative-blood-loss", "tamponade-chamber-volume")) {
            List<Resource> readings = all.stream()
                    .filter(it -> Profiles.of(it).equals(profile))
                    .filter(it -> !Profiles.isEnteredInError(it))
                    .toList();
            assertThat(ids(handover)).as(profile).contains(ids(readings).get(readings.size() - 1));
        }
    }

    @ParameterizedTest
    @EnumSource(CaseView.class)
    void whoTakesOverReadsWhatStandsFirst(CaseView view) {
        Composition composition = (Composition)
                BUNDLES.document(InventedCase.file(InventedCase.events()), view, view(view, InventedCase.events()))
                        .getEntryFirstRep()
                        .getResource();
        List<String> sections = composition.getSection().stream()
                .map(Composition.SectionComponent::getTitle)
                .toList();

        assertThat(sections).hasSize(Section.values().length);
        assertThat(sections.indexOf("Warnings")).isEqualTo(view == CaseView.HANDOVER ? 1 : 11);
    }

    @ParameterizedTest
    @EnumSource(CaseView.class)
    void whatAViewLeavesOutIsNotSaidToBeUnrecorded(CaseView view) {
        List<EventEnvelope> events = InventedCase.eventsOf(new Note("only this"));
        Composition composition = (Composition) BUNDLES.document(InventedCase.file(events), view, view(view, events))
                .getEntryFirstRep()
                .getResource();
        List<String> said = composition.getSection().stream()
                .filter(it -> !it.hasEntry())
                .map(it -> Narratives.text(it.getText()))
                .toList();

        assertThat(said).isNotEmpty();
        if (view == CaseView.FULL) {
            assertThat(said).allMatch("Nothing recorded."::equals);
        } else {
            assertThat(said).allMatch(it -> it.contains("full record"));
        }
    }

    // HL7 v3 Confidentiality: R, restricted.
    @Test
    void whatNamesAMotherWhoRefusedIsLabelledAsRestricted() {
        CaseOpened opened = (CaseOpened) InventedCase.events().get(0).data();
        for (Consent said : Consent.values()) {
            List<EventEnvelope> events =
                    InventedCase.eventsOf(new CaseOpened(opened.mother(), opened.encounterStart(), said));
            List<Resource> resources = view(CaseView.HANDOVER, events);
            Bundle document = BUNDLES.document(InventedCase.file(events), CaseView.HANDOVER, resources);
            List<String> labelled = Stream.concat(
                            Stream.of(document),
                            document.getEntry().stream().map(Bundle.BundleEntryComponent::getResource))
                    .filter(it -> it.getMeta().getSecurity().stream()
                            .anyMatch(label -> label.getCode().equals("R")))
                    .map(Resource::fhirType)
                    .toList();

            assertThat(labelled)
                    .containsExactlyInAnyOrderElementsOf(
                            said == Consent.REFUSED
                                    ? List.of(
                                            "Bundle", "Composition", "Patient", "Encounter", "EpisodeOfCare", "Consent")
                                    : List.of());
            assertThat(Shared.CONFORMANCE.check(document).problems()).isEmpty();
        }
    }

    // A pressure that was low for a minute must not vanish between two that were not.
    @Test
    void noReadingIsHiddenBetweenTheHours() {
        List<VitalSigns> signs = new ArrayList<>();
        for (int i = 0; i < 120; i++) {
            signs.add(signs(i == 47 ? 61 : 118 + i % 3));
        }
        List<EventEnvelope> events = InventedCase.eventsOf(signs.toArray(new VitalSigns[0]));
        Composition composition =
                (Composition) BUNDLES.document(InventedCase.file(events), CaseView.FULL, view(CaseView.FULL, events))
                        .getEntryFirstRep()
                        .getResource();
        String text = composition.getSection().stream()
                .filter(it -> it.getTitle().equals("Vital signs"))
                .map(it -> Narratives.text(it.getText()))
                .findFirst()
                .orElseThrow();

        assertThat(text).contains("61/40").contains("more times between these are in the entries");
        assertThat(text.length()).isLessThan(6000);
    }

    @Test
    void everyProfileHasARule() {
        assertThat(Section.profiles())
                .allSatisfy(profile ->
                        assertThat(ViewRule.of(profile, CaseView.COURSE)).isNotNull());
    }

    private static VitalSigns signs(int systolic) {
        return new VitalSigns(
                new BigDecimal(80), new BigDecimal(systolic), new BigDecimal(40), null, null, null, null, null);
    }

    private static List<Resource> view(CaseView view, List<EventEnvelope> events) {
        return BUNDLES.view(view, Mapped.ofCase(events).all());
    }

    private static boolean isDerived(Resource resource) {
        return resource instanceof Observation observation
                && observation.getCode().getCoding().stream()
                        .anyMatch(it -> it.getSystem().endsWith("/CodeSystem/derived-fact"));
    }

    private static Set<String> codes(List<Resource> resources) {
        return resources.stream()
                .filter(it -> it instanceof Observation && !Profiles.isEnteredInError(it))
                .map(it -> ((Observation) it).getCode().getText())
                .collect(Collectors.toSet());
    }

    private static List<String> ids(List<Resource> resources) {
        return resources.stream()
                .map(it -> it.fhirType() + "/" + it.getIdPart())
                .toList();
    }
}
