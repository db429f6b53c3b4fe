package example.tamponade.fhir.bundle;

import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.terms.Narratives;
import example.tamponade.fhir.terms.Terms;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.StringType;

/** The Composition of a case document: its sections in clinical order, each to be read as it stands. */
final class CaseDocument {

    private static final String LOINC = "http://loinc.org";
    private static final String SUMMARY_OF_EPISODE = "34133-9";
    private static final String EMPTY_REASON = "http://terminology.hl7.org/CodeSystem/list-empty-reason";

    /**
     * What a document says of itself.
     *
     * @param id its own id
     * @param composition id of its front page
     * @param encounter id of the stay that it is about
     * @param custodian id of the facility that keeps it
     * @param title what stands above it
     * @param isOpen whether the case goes on
     * @param latest when the latest of it was recorded
     */
    record Head(
            String id,
            String composition,
            String encounter,
            String custodian,
            String title,
            boolean isOpen,
            OffsetDateTime latest) {}

    private final Terms terms;

    CaseDocument(Terms terms) {
        this.terms = terms;
    }

    /**
     * The front page of what a view holds.
     *
     * @param resources what the view holds, in the order of time
     */
    Composition composition(Head head, CaseView view, List<Resource> resources) {
        Composition composition = new Composition();
        composition.setId(head.composition());
        composition.getMeta().addProfile(terms.profile("case-composition"));
        boolean open = head.isOpen();
        OffsetDateTime latest = head.latest();
        composition.setStatus(open ? Composition.CompositionStatus.PRELIMINARY : Composition.CompositionStatus.FINAL);
        composition.setType(new CodeableConcept(terms.coding(LOINC, SUMMARY_OF_EPISODE)));
        composition.addCategory(terms.local("bedside-item", "case-record"));
        composition.setSubject(reference(first(resources, "Patient")));
        composition.setEncounter(new Reference("Encounter/" + head.encounter()));
        composition.setDateElement(new DateTimeType(DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(latest)));
        composition.addAuthor(reference(software(resources)));
        composition.setCustodian(new Reference("Organization/" + head.custodian()));
        composition.setTitle(head.title());
        composition.addExtension(new Extension(terms.profile("caution"), new StringType(CaseMapper.CAUTION)));
        composition.setText(Narratives.of(List.of(
                composition.getTitle() + (open ? ", case open" : ", case closed") + ", as recorded up to "
                        + composition.getDateElement().getValueAsString() + ". Times are at UTC"
                        + latest.getOffset().getId().replace("Z", "") + ".",
                CaseMapper.CAUTION)));
        Map<Section, List<Resource>> bySection = resources.stream()
                .collect(Collectors.groupingBy(this::section, () -> new EnumMap<>(Section.class), Collectors.toList()));
        SectionText text = new SectionText(StateChanges.of(resources), new RowTimes(latest.getOffset()));
        for (Section section : order(view)) {
            composition.addSection(section(section, view, text, bySection.getOrDefault(section, List.of())));
        }
        return composition;
    }

    static String title(CaseView view) {
        return switch (view) {
            case FULL -> "Case record";
            case COURSE -> "Course of case";
            case HANDOVER -> "Handover of case";
        };
    }

    // Who takes over reads first what stands against the mother now.
    private static List<Section> order(CaseView view) {
        List<Section> order = new ArrayList<>(List.of(Section.values()));
        if (view == CaseView.HANDOVER) {
            order.remove(Section.WARNINGS);
            order.add(1, Section.WARNINGS);
        }
        return order;
    }

    private Composition.SectionComponent section(
            Section section, CaseView view, SectionText text, List<Resource> resources) {
        CodeableConcept code = terms.local("bundle-section", section.code());
        Composition.SectionComponent component = new Composition.SectionComponent();
        component.setTitle(code.getText()).setCode(code);
        if (resources.isEmpty()) {
            String words = nothing(section, view);
            component.setText(Narratives.of(List.of(words + ".")));
            return component.setEmptyReason(
                    new CodeableConcept(new Coding(EMPTY_REASON, "unavailable", "Unavailable")).setText(words));
        }
        component.setText(text.of(resources));
        resources.forEach(it -> component.addEntry(reference(it)));
        return component;
    }

    // A view leaves things out, and warnings that ended among them: that nothing is here does not say that nothing was.
    private static String nothing(Section section, CaseView view) {
        if (view == CaseView.FULL) {
            return "Nothing recorded";
        }
        return section == Section.WARNINGS
                ? "No warning stands by what was recorded, which is no sign that she is well; the full record has those"
                        + " that ended"
                : "Nothing of this section is in this view; the full record may have more";
    }

    private Section section(Resource resource) {
        return Section.of(Profiles.of(resource));
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
