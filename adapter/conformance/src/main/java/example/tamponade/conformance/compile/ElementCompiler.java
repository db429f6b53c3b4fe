package example.tamponade.conformance.compile;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.conformance.UnknownConstructException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.hl7.fhir.r4.model.ElementDefinition;
import org.hl7.fhir.r4.model.Enumerations;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Parameters;
import org.hl7.fhir.r4.model.StructureDefinition;
import org.hl7.fhir.r4.model.Type;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** The elements of one snapshot as nodes: children in the order of the snapshot, slices below what they slice. */
final class ElementCompiler {

    private static final String FHIR_TYPE = "http://hl7.org/fhir/StructureDefinition/structuredefinition-fhir-type";

    private static final String SYSTEM_TYPE = "http://hl7.org/fhirpath/System.";

    private final FhirContext fhir;
    private final Nodes nodes;
    private final Invariants invariants;
    private final StructureDefinition definition;
    private final StructureDefinition base;
    private final List<ElementDefinition> elements;
    private final Map<String, Integer> named = new LinkedHashMap<>();
    private final Set<String> reached = new TreeSet<>();
    private final Set<String> valueSets = new TreeSet<>();

    /**
     * Compiles a definition.
     *
     * @param base that of its type in FHIR R4
     */
    ElementCompiler(
            FhirContext fhir,
            Nodes nodes,
            Invariants invariants,
            StructureDefinition definition,
            StructureDefinition base) {
        this.fhir = fhir;
        this.nodes = nodes;
        this.invariants = invariants;
        this.definition = definition;
        this.base = base;
        this.elements = definition.getSnapshot().getElement();
    }

    /** The place of the root's node. */
    int compile() {
        return place(0);
    }

    /** The nodes that another refers to by the id of their element. */
    Map<String, Integer> named() {
        return named;
    }

    /** The types and profiles that the elements name. */
    Set<String> reached() {
        return reached;
    }

    /** The value sets that codes are bound to. */
    Set<String> valueSets() {
        return valueSets;
    }

    private int place(int at) {
        ElementDefinition element = elements.get(at);
        ObjectNode node = Nodes.JSON.createObjectNode();
        String path = element.getPath();
        node.put("path", path).put("min", element.getMin());
        node.put("max", element.getMax().equals("*") ? -1 : Integer.parseInt(element.getMax()));
        node.put("list", !Set.of("0", "1").contains(element.getBase().getMax()));
        if (element.hasSliceName()) {
            node.put("slice", element.getSliceName());
        }
        types(element, node);
        value(element, node);
        binding(element, node);
        invariants(element, node);
        if (element.hasContentReference()) {
            node.put(
                    "like",
                    element.getContentReference()
                            .substring(element.getContentReference().indexOf('#') + 1));
        }
        children(at, node);
        int place = nodes.place(node);
        named.put(element.getId(), place);
        return place;
    }

    private void types(ElementDefinition element, ObjectNode node) {
        ArrayNode types = node.putArray("types");
        for (ElementDefinition.TypeRefComponent type : element.getType()) {
            if (type.hasAggregation() || type.hasVersioning()) {
                throw unknown(element, "aggregation or versioning of a reference");
            }
            String code = code(type);
            ObjectNode compiled = types.addObject().put("code", code);
            reached.add(code);
            list(
                    compiled,
                    "profiles",
                    type.getProfile().stream().map(it -> it.getValue()).toList());
            list(
                    compiled,
                    "targets",
                    type.getTargetProfile().stream().map(it -> it.getValue()).toList());
            type.getProfile().forEach(it -> reached.add(it.getValue()));
        }
    }

    private static String code(ElementDefinition.TypeRefComponent type) {
        Extension fhirType = type.getExtensionByUrl(FHIR_TYPE);
        if (fhirType != null) {
            return fhirType.getValue().primitiveValue();
        }
        return type.getCode().startsWith(SYSTEM_TYPE) ? "string" : type.getCode();
    }

    private static void list(ObjectNode node, String name, List<String> values) {
        if (!values.isEmpty()) {
            ArrayNode list = node.putArray(name);
            values.forEach(list::add);
        }
    }

    private void value(ElementDefinition element, ObjectNode node) {
        if (element.hasFixed()) {
            node.set("fixed", json(element.getFixed()));
        }
        if (element.hasPattern()) {
            node.set("pattern", json(element.getPattern()));
        }
        if (element.hasMaxLength()) {
            node.put("maxLength", element.getMaxLength());
        }
        bound(element, node, "least", element.getMinValue());
        bound(element, node, "most", element.getMaxValue());
    }

    private void bound(ElementDefinition element, ObjectNode node, String name, Type bound) {
        if (bound != null) {
            if (!Set.of("integer", "decimal", "positiveInt", "unsignedInt").contains(bound.fhirType())) {
                throw unknown(element, "a smallest or largest " + bound.fhirType());
            }
            node.put(name, bound.primitiveValue());
        }
    }

    // The parser writes whole resources only, so that the value goes into one.
    private tools.jackson.databind.JsonNode json(Type value) {
        Parameters whole = new Parameters();
        whole.addParameter().setName("value").setValue(value);
        ObjectNode parameter = (ObjectNode) Nodes.JSON
                .readTree(fhir.newJsonParser().encodeResourceToString(whole))
                .get("parameter")
                .get(0);
        parameter.remove("name");
        return parameter.values().iterator().next();
    }

    private void binding(ElementDefinition element, ObjectNode node) {
        if (isBound(element)) {
            binding(element.getBinding(), node.putObject("binding"));
            base.getSnapshot().getElement().stream()
                    .filter(it -> it.getId().equals(element.getPath()) && isBound(it))
                    .filter(it -> !it.getBinding()
                            .getValueSet()
                            .equals(element.getBinding().getValueSet()))
                    .forEach(it -> binding(it.getBinding(), ((ObjectNode) node.get("binding")).putObject("base")));
        }
    }

    private void binding(ElementDefinition.ElementDefinitionBindingComponent binding, ObjectNode node) {
        String valueSet = withoutVersion(binding.getValueSet());
        valueSets.add(valueSet);
        node.put("strength", binding.getStrength().toCode()).put("valueSet", valueSet);
    }

    private static boolean isBound(ElementDefinition element) {
        return element.hasBinding()
                && element.getBinding().hasValueSet()
                && element.getBinding().getStrength() != Enumerations.BindingStrength.EXAMPLE;
    }

    private static String withoutVersion(String canonical) {
        return canonical.contains("|") ? canonical.substring(0, canonical.indexOf('|')) : canonical;
    }

    private void invariants(ElementDefinition element, ObjectNode node) {
        ArrayNode keys = Nodes.JSON.createArrayNode();
        for (ElementDefinition.ElementDefinitionConstraintComponent constraint : element.getConstraint()) {
            try {
                keys.add(invariants.place(constraint, definition.getUrl()));
            } catch (IllegalArgumentException e) {
                throw unknown(element, "invariant " + constraint.getKey() + ", " + e.getMessage());
            }
        }
        if (!keys.isEmpty()) {
            node.set("invariants", keys);
        }
    }

    private void children(int at, ObjectNode node) {
        ArrayNode children = Nodes.JSON.createArrayNode();
        String path = elements.get(at).getPath();
        int slicer = -1;
        List<Integer> slices = new ArrayList<>();
        for (int i = at + 1; i < elements.size() && elements.get(i).getPath().startsWith(path + "."); i++) {
            if (elements.get(i).getPath().indexOf('.', path.length() + 1) >= 0 || isValueOfPrimitive(i)) {
                continue;
            }
            if (elements.get(i).hasSliceName()) {
                slices.add(i);
            } else {
                add(children, slicer, slices);
                slicer = i;
                slices = new ArrayList<>();
            }
        }
        add(children, slicer, slices);
        if (!children.isEmpty()) {
            node.set("children", children);
        }
    }

    // The value of a primitive is no element of its own in JSON.
    private boolean isValueOfPrimitive(int at) {
        return definition.getKind() == StructureDefinition.StructureDefinitionKind.PRIMITIVETYPE
                && elements.get(at).getPath().endsWith(".value");
    }

    private void add(ArrayNode children, int slicer, List<Integer> slices) {
        if (slicer < 0) {
            return;
        }
        int place = place(slicer);
        if (slices.isEmpty()) {
            children.add(place);
            return;
        }
        ElementDefinition sliced = elements.get(slicer);
        ObjectNode node = (ObjectNode) nodes.all().get(place).deepCopy();
        if (!sliced.getSlicing().hasRules()) {
            throw unknown(sliced, "slices that do not say whether others may stand beside them");
        }
        node.put("rules", sliced.getSlicing().getRules().toCode());
        if (sliced.getSlicing().getOrdered()) {
            throw unknown(sliced, "slices in a fixed order");
        }
        ArrayNode compiled = node.putArray("slices");
        for (int slice : slices) {
            compiled.addObject()
                    .put("node", place(slice))
                    .set("match", new SliceCompiler(invariants, definition, elements).match(slicer, slice));
        }
        children.add(nodes.place(node));
    }

    private UnknownConstructException unknown(ElementDefinition element, String construct) {
        return new UnknownConstructException(definition.getUrl(), element.getId(), construct);
    }
}
