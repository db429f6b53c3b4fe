package example.tamponade.conformance.compile;

import example.tamponade.conformance.UnknownConstructException;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.ElementDefinition;
import org.hl7.fhir.r4.model.ElementDefinition.ElementDefinitionSlicingDiscriminatorComponent;
import org.hl7.fhir.r4.model.StringType;
import org.hl7.fhir.r4.model.StructureDefinition;
import org.hl7.fhir.r4.model.Type;
import org.hl7.fhir.r4.model.UriType;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ArrayNode;

/** Discriminators as one FHIRPath expression: an element is in the slice when it is true of it. */
final class SliceCompiler {

    private final Invariants invariants;
    private final StructureDefinition definition;
    private final List<ElementDefinition> elements;

    SliceCompiler(Invariants invariants, StructureDefinition definition, List<ElementDefinition> elements) {
        this.invariants = invariants;
        this.definition = definition;
        this.elements = elements;
    }

    ArrayNode match(int slicer, int slice) {
        List<String> conditions = new ArrayList<>();
        for (ElementDefinitionSlicingDiscriminatorComponent by :
                elements.get(slicer).getSlicing().getDiscriminator()) {
            conditions.add(condition(elements.get(slice), by));
        }
        if (conditions.isEmpty()) {
            throw unknown(elements.get(slice), "a slice without a discriminator");
        }
        return invariants.expression(String.join(" and ", conditions));
    }

    private String condition(ElementDefinition slice, ElementDefinitionSlicingDiscriminatorComponent by) {
        String path = by.getPath();
        ElementDefinition at = path.equals("$this") ? slice : below(slice, path);
        switch (by.getType()) {
            case TYPE:
                if (at != null && at.getType().size() == 1) {
                    return path + " is " + at.getTypeFirstRep().getCode();
                }
                break;
            case VALUE, PATTERN:
                String value = at == null ? null : value(path, at);
                if (value != null) {
                    return value;
                }
                if (path.equals("url") && slice.getTypeFirstRep().hasProfile()) {
                    return "url = '"
                            + slice.getTypeFirstRep().getProfile().get(0).getValue() + "'";
                }
                break;
            default:
                break;
        }
        throw unknown(slice, "a slice by " + by.getType().toCode() + " of " + path);
    }

    private @Nullable ElementDefinition below(ElementDefinition slice, String path) {
        String start = slice.getId() + ".";
        return elements.stream()
                .filter(it -> it.getId().startsWith(start)
                        && withoutSlices(it.getId(), start).equals(path))
                .findFirst()
                .orElse(null);
    }

    // Below the slice others may stand, as that of the code in a component.
    private static String withoutSlices(String id, String start) {
        return id.substring(start.length()).replaceAll(":[^.]+", "");
    }

    private @Nullable String value(String path, ElementDefinition at) {
        Type value = at.hasFixed() ? at.getFixed() : at.getPattern();
        if (value instanceof CodeableConcept concept) {
            return coded(path + ".coding", concept.getCoding());
        }
        if (value instanceof Coding coding) {
            return coded(path, List.of(coding));
        }
        // Several may be there, as the codes of a concept: one of them is enough.
        return value instanceof StringType || value instanceof UriType
                ? "'" + value.primitiveValue() + "' in " + path
                : null;
    }

    private static String coded(String path, List<Coding> codings) {
        List<String> conditions = new ArrayList<>();
        for (Coding coding : codings) {
            List<String> parts = new ArrayList<>();
            if (coding.hasSystem()) {
                parts.add("system = '" + coding.getSystem() + "'");
            }
            if (coding.hasCode()) {
                parts.add("code = '" + coding.getCode() + "'");
            }
            if (coding.hasDisplay()) {
                parts.add("display = '" + coding.getDisplay().replace("'", "\\'") + "'");
            }
            conditions.add(path + ".where(" + String.join(" and ", parts) + ").exists()");
        }
        return String.join(" and ", conditions);
    }

    private UnknownConstructException unknown(ElementDefinition element, String construct) {
        return new UnknownConstructException(definition.getUrl(), element.getId(), construct);
    }
}
