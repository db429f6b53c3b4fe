package example.tamponade.fhir.bundle;

import example.tamponade.core.casefile.CaseFile;
import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.terms.Narratives;
import example.tamponade.fhir.terms.Terms;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.DomainResource;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.StringType;

/** The Composition of a case document: its sections in clinical order, each to be read as it stands. */
final class CaseDocument {

    private static final String LOINC = "http://loinc.org";
    private static final String SUMMARY_OF_EPISODE = "34133-9";
    private static final String EMPTY_REASON = "http://terminology.hl7.org/CodeSystem/list-empty-reason";

    private final Terms terms;

    CaseDocument(Terms terms) {
        this.terms = terms;
    }

    Composition composition(CaseFile file, List<Resource> resources, String id, OffsetDateTime latest) {
        Composition composition = new Composition();
        composition.setId(id);
        composition.getMeta().addProfile(terms.profile("case-composition"));
        boolean open = file.closedAt() == null;
        composition.setStatus(open ? Composition.CompositionStatus.PRELIMINARY : Composition.CompositionStatus.FINAL);
        composition.setType(new CodeableConcept(terms.coding(LOINC, SUMMARY_OF_EPISODE)));
        composition.addCategory(terms.local("bedside-item", "case-record"));
        composition.setSubject(reference(first(resources, "Patient")));
        composition.setEncounter(reference(first(resources, "Encounter")));
        composition.setDateElement(new DateTimeType(DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(latest)));
        composition.addAuthor(reference(software(resources)));
        composition.setTitle(
                "Case record " + file.caseId().number() + " of " + file.caseId().facilityId());
        composition.addExtension(new Extension(terms.profile("caution"), new StringType(CaseMapper.CAUTION)));
        composition.setText(Narratives.of(List.of(
                composition.getTitle() + (open ? ", case open" : ", case closed") + ", as recorded up to "
                        + composition.getDateElement().getValueAsString(),
                CaseMapper.CAUTION)));
        Map<Section, List<Resource>> bySection = resources.stream()
                .collect(Collectors.groupingBy(this::section, () -> new EnumMap<>(Section.class), Collectors.toList()));
        for (Section section : Section.values()) {
            composition.addSection(section(section, bySection.getOrDefault(section, List.of())));
        }
        return composition;
    }

    private Composition.SectionComponent section(Section section, List<Resource> resources) {
        CodeableConcept code = terms.local("bundle-section", section.code());
        Composition.SectionComponent component = new Composition.SectionComponent();
        component.setTitle(code.getText()).setCode(code);
        if (resources.isEmpty()) {
            component.setText(Narratives.of(List.of("Nothing recorded.")));
            return component.setEmptyReason(new CodeableConcept(new Coding(EMPTY_REASON, "unavailable", "Unavailable"))
                    .setText("Nothing recorded"));
        }
        component.setText(
                Narratives.listOf(resources.stream().map(CaseDocument::line).toList()));
        resources.forEach(it -> component.addEntry(reference(it)));
        return component;
    }

    // What a person reads of a resource: its first line, and its time where that stands in the second.
    private static String line(Resource resource) {
        return Narratives.text(((DomainResource) resource).getText());
    }

    private Section section(Resource resource) {
        String profile = resource.getMeta().getProfile().get(0).getValue();
        return Section.of(profile.substring(profile.lastIndexOf('/') + 1));
    }

    private Resource software(List<Resource> resources) {
        return resources.stream()
                .filter(it -> it.getMeta().hasProfile(terms.profile("adapter-software")))
                .findFirst()
                .orElseThrow();
    }

    private static Resource first(List<Resource> resources, String type) {
        return resources.stream()
                .filter(it -> it.fhirType().equals(type))
                .findFirst()
                .orElseThrow();
    }

    private static Reference reference(Resource resource) {
        return new Reference(resource.fhirType() + "/" + resource.getIdPart());
    }
}
