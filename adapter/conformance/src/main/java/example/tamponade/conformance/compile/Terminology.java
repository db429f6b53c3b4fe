package example.tamponade.conformance.compile;

import ca.uhn.fhir.context.support.IValidationSupport;
import ca.uhn.fhir.context.support.ValidationSupportContext;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.hl7.fhir.r4.model.CodeSystem;
import org.hl7.fhir.r4.model.ValueSet;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** The value sets that elements are bound to, expanded, and the code systems that their codes come from. */
final class Terminology {

    private final IValidationSupport support;
    private final Map<String, ObjectNode> valueSets = new TreeMap<>();
    private final Map<String, ObjectNode> codeSystems = new TreeMap<>();

    Terminology(IValidationSupport support) {
        this.support = support;
    }

    ObjectNode valueSets() {
        return object(valueSets);
    }

    ObjectNode codeSystems() {
        return object(codeSystems);
    }

    private static ObjectNode object(Map<String, ObjectNode> all) {
        ObjectNode object = Nodes.JSON.createObjectNode();
        all.forEach(object::set);
        return object;
    }

    /** Adds a value set; one that cannot be expanded, as it takes codes of systems that are not here, is kept as open. */
    void addValueSet(String url) {
        ObjectNode compiled = Nodes.JSON.createObjectNode();
        valueSets.put(url, compiled);
        ValueSet set = (ValueSet) support.fetchValueSet(url);
        if (set == null) {
            compiled.put("missing", true);
            return;
        }
        ArrayNode systems = compiled.putArray("takes");
        set.getCompose().getInclude().forEach(it -> {
            if (it.hasSystem()) {
                systems.add(it.getSystem());
                addCodeSystem(it.getSystem());
            }
        });
        ValueSet expanded = expanded(set);
        if (expanded == null) {
            compiled.put("open", true);
            return;
        }
        ObjectNode codes = compiled.putObject("codes");
        add(expanded.getExpansion().getContains(), codes);
        if (codes.isEmpty()) {
            compiled.remove("codes");
            compiled.put("open", true);
        }
    }

    private void add(List<ValueSet.ValueSetExpansionContainsComponent> some, ObjectNode codes) {
        for (ValueSet.ValueSetExpansionContainsComponent code : some) {
            addCodeSystem(code.getSystem());
            ((ArrayNode) codes.withArrayProperty(code.getSystem())).add(code.getCode());
            add(code.getContains(), codes);
        }
    }

    private @org.jspecify.annotations.Nullable ValueSet expanded(ValueSet set) {
        IValidationSupport.ValueSetExpansionOutcome outcome =
                support.expandValueSet(new ValidationSupportContext(support), null, set);
        return outcome == null ? null : (ValueSet) outcome.getValueSet();
    }

    /** Adds a code system, when it is known with its codes. */
    void addCodeSystem(String url) {
        if (codeSystems.containsKey(url)) {
            return;
        }
        CodeSystem system = (CodeSystem) support.fetchCodeSystem(url);
        if (system == null || system.getConcept().isEmpty()) {
            return;
        }
        ObjectNode compiled = Nodes.JSON.createObjectNode();
        codeSystems.put(url, compiled);
        compiled.put("fragment", system.getContent() == CodeSystem.CodeSystemContentMode.FRAGMENT);
        compiled.put("anyCase", system.hasCaseSensitive() && !system.getCaseSensitive());
        ObjectNode codes = compiled.putObject("codes");
        system.getConcept().forEach(it -> add(it, codes));
    }

    private static void add(CodeSystem.ConceptDefinitionComponent concept, ObjectNode codes) {
        codes.put(concept.getCode(), concept.getDisplay());
        concept.getConcept().forEach(it -> add(it, codes));
    }
}
