package example.tamponade.fhir.bundle;

import static example.tamponade.fhir.Checks.codes;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.Note;
import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.Shared;
import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.terms.Narratives;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.r4.model.Reference;
import org.junit.jupiter.api.Test;

class CaseBundlesTest {

    private static final CaseBundles BUNDLES = new CaseBundles(Shared.TERMS, Shared.MAPPER);

    private final Bundle document = document(InventedCase.events());
    private final Composition composition =
            (Composition) document.getEntryFirstRep().getResource();

    @Test
    void theDocumentConforms() {
        assertThat(Shared.CONFORMANCE.check(document).problems()).isEmpty();
    }

    @Test
    void theDocumentBeginsWithItsComposition() {
        assertThat(document.getType()).isEqualTo(Bundle.BundleType.DOCUMENT);
        assertThat(composition.getStatus()).isEqualTo(Composition.CompositionStatus.FINAL);
        assertThat(codes(composition.getType())).containsExactly("loinc.org#34133-9");
        assertThat(composition.getTitle()).isEqualTo("Case record INV-2026-0007 of hollowbrook-hp");
        assertThat(Narratives.text(composition.getText())).contains(CaseMapper.CAUTION);
    }

    @Test
    void anOpenCaseIsPreliminary() {
        Bundle open = document(InventedCase.eventsOf(new Note("still here")));
        assertThat(((Composition) open.getEntryFirstRep().getResource()).getStatus())
                .isEqualTo(Composition.CompositionStatus.PRELIMINARY);
        assertThat(Shared.CONFORMANCE.check(open).problems()).isEmpty();
    }

    @Test
    void theDocumentIsDatedWithTheLatestRecording() {
        // A note of 22:58 was keyed in at 02:00, after everything else.
        assertThat(composition.getDateElement().getValueAsString()).isEqualTo("2026-03-02T02:00:00+05:45");
        assertThat(document.getTimestampElement().getValueAsString()).isEqualTo("2026-03-02T02:00:00+05:45");
    }

    @Test
    void theSectionsComeInClinicalOrder() {
        assertThat(composition.getSection().stream().map(CaseBundlesTest::code))
                .containsExactly(
                        "mother",
                        "birth",
                        "haemorrhage",
                        "first-line",
                        "blood-loss",
                        "vital-signs",
                        "tamponade",
                        "fluids-and-medicines",
                        "urine",
                        "examinations",
                        "laboratory",
                        "warnings",
                        "referral",
                        "outcome",
                        "notes",
                        "provenance");
    }

    // FHIR R4, document section codes.
    @Test
    void sectionsHaveTheirStandardCodesFirst() {
        assertThat(codes(section(composition, "vital-signs").getCode()))
                .containsExactly("loinc.org#8716-3", "bundle-section#vital-signs");
        assertThat(codes(section(composition, "laboratory").getCode()))
                .containsExactly("loinc.org#30954-2", "bundle-section#laboratory");
        assertThat(codes(section(composition, "fluids-and-medicines").getCode()))
                .containsExactly("loinc.org#10160-0", "bundle-section#fluids-and-medicines");
    }

    @Test
    void everyResourceStandsInOneSectionAndIsInTheDocument() {
        List<String> entries = composition.getSection().stream()
                .flatMap(it -> it.getEntry().stream())
                .map(Reference::getReference)
                .toList();
        List<String> resources = document.getEntry().stream()
                .skip(1)
                .map(it -> it.getResource().fhirType() + "/" + it.getResource().getIdPart())
                .toList();
        assertThat(entries).containsExactlyInAnyOrderElementsOf(resources);
    }

    @Test
    void everyReferenceStaysInTheDocument() {
        Set<String> addresses = document.getEntry().stream()
                .map(Bundle.BundleEntryComponent::getFullUrl)
                .collect(Collectors.toSet());
        assertThat(document.getEntry())
                .allSatisfy(entry -> Mapped.references(entry.getResource())
                        .forEach(it -> assertThat(addresses).contains(Shared.TERMS.base() + "/" + it.getReference())));
    }

    @Test
    void everySectionCanBeReadAsItStands() {
        Composition.SectionComponent urine = section(composition, "urine");
        assertThat(Narratives.text(urine.getText()))
                .contains("Urine output: 60 mL (2026-03-01 22:40)")
                .contains("Urine rate: 72 mL/h (22:40)");
        assertThat(composition.getSection())
                .allSatisfy(it -> assertThat(Narratives.text(it.getText())).isNotBlank());
    }

    @Test
    void whatIsMissingIsShownAsMissing() {
        Bundle small = document(InventedCase.eventsOf(new Note("only this")));
        Composition.SectionComponent urine =
                section((Composition) small.getEntryFirstRep().getResource(), "urine");
        assertThat(urine.hasEntry()).isFalse();
        assertThat(codes(urine.getEmptyReason())).containsExactly("list-empty-reason#unavailable");
        assertThat(Narratives.text(urine.getText())).isEqualTo("Nothing recorded.");
    }

    @Test
    void theDocumentIsTheSameOnASecondRun() {
        assertThat(Mapped.json(document(InventedCase.events()))).isEqualTo(Mapped.json(document));
    }

    // Bundle.identifier: "persistent identity for this bundle, globally unique" (HL7 FHIR R4, Bundle, documents).
    @Test
    void anotherStateOfTheCaseIsAnotherBundle() {
        List<EventEnvelope> all = InventedCase.events();
        Bundle earlier = document(all.subList(0, all.size() - 1));
        assertThat(earlier.getId()).isEqualTo(document.getId());
        assertThat(earlier.getIdentifier().getValue())
                .startsWith("urn:uuid:")
                .isNotEqualTo(document.getIdentifier().getValue());
    }

    @Test
    void aCaseWithoutEventsIsNoDocument() {
        assertThrows(IllegalArgumentException.class, () -> document(List.of()));
    }

    @Test
    void theTransactionConformsAndPutsEachResourceAtItsAddress() {
        Bundle transaction = BUNDLES.transaction(
                InventedCase.file(InventedCase.events()),
                Mapped.ofInventedCase().all());
        assertThat(Shared.CONFORMANCE.check(transaction).problems()).isEmpty();
        assertThat(transaction.getEntry())
                .hasSameSizeAs(Mapped.ofInventedCase().all())
                .allSatisfy(it -> {
                    String address =
                            it.getResource().fhirType() + "/" + it.getResource().getIdPart();
                    assertThat(it.getRequest().getMethod()).isEqualTo(Bundle.HTTPVerb.PUT);
                    assertThat(it.getRequest().getUrl()).isEqualTo(address);
                    assertThat(it.getFullUrl()).isEqualTo(Shared.TERMS.base() + "/" + address);
                });
    }

    @Test
    void aDocumentWithoutCompositionFails() {
        document.getEntry().remove(0);
        assertThat(Shared.CONFORMANCE.check(document).passed()).isFalse();
    }

    @Test
    void aSectionThatDoesNotExistFails() {
        composition.getSectionFirstRep().getCode().getCodingFirstRep().setCode("no-such-section");
        assertThat(Shared.CONFORMANCE.check(document).passed()).isFalse();
    }

    @Test
    void aSectionThatIsNeitherFilledNorSaysWhyNotFails() {
        section(composition, "urine").getEntry().clear();
        assertThat(Shared.CONFORMANCE.check(document).passed()).isFalse();
    }

    @Test
    void aTransactionThatPostsFails() {
        Bundle transaction = BUNDLES.transaction(
                InventedCase.file(InventedCase.events()),
                List.of(Mapped.ofInventedCase().observation("urine-output")));
        assertThat(Shared.CONFORMANCE.check(transaction).passed()).isTrue();
        transaction.getEntryFirstRep().getRequest().setMethod(Bundle.HTTPVerb.POST);
        assertThat(Shared.CONFORMANCE.check(transaction).passed()).isFalse();
    }

    private static Bundle document(List<EventEnvelope> events) {
        return BUNDLES.document(
                InventedCase.file(events),
                CaseView.FULL,
                BUNDLES.view(CaseView.FULL, Mapped.ofCase(events).all()));
    }

    private static Composition.SectionComponent section(Composition composition, String code) {
        return composition.getSection().stream()
                .filter(it -> code(it).equals(code))
                .findFirst()
                .orElseThrow();
    }

    // Ours stands behind the standard one.
    private static String code(Composition.SectionComponent section) {
        List<Coding> codings = section.getCode().getCoding();
        return codings.get(codings.size() - 1).getCode();
    }
}
