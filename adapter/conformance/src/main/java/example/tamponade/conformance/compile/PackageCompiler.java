package example.tamponade.conformance.compile;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.conformance.UnknownConstructException;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.hl7.fhir.r4.fhirpath.FHIRPathEngine;
import org.hl7.fhir.r4.hapi.ctx.HapiWorkerContext;
import org.hl7.fhir.r4.model.StructureDefinition;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Compiles a package: its profiles, what they are made of down to the primitives, and the terminology they name. */
public final class PackageCompiler {

    // FHIRPath types of the definitions of FHIR itself, and what stands for any type.
    private static final Set<String> NOT_DEFINED = Set.of("*");

    private final FhirContext fhir = FhirContext.forR4();
    private final Definitions definitions;
    private final Nodes nodes = new Nodes();
    private final Invariants invariants;
    private final Terminology terminology;
    private final Map<String, ObjectNode> compiled = new TreeMap<>();
    private final Deque<StructureDefinition> waiting = new ArrayDeque<>();
    private final Set<String> seen = new TreeSet<>();

    private PackageCompiler(List<InputStream> packages) throws IOException {
        this.definitions = Definitions.read(fhir, packages);
        this.invariants = new Invariants(
                new ExpressionCompiler(new FHIRPathEngine(new HapiWorkerContext(fhir, definitions.support()))));
        this.terminology = new Terminology(definitions.support());
    }

    /**
     * Compiles FHIR NPM packages together; the first gives the address that own definitions begin with.
     *
     * @throws IOException when one is not readable as such
     * @throws UnknownConstructException when a profile uses what cannot be compiled
     */
    public static ObjectNode compile(List<InputStream> packages) throws IOException {
        return new PackageCompiler(packages).compile();
    }

    private ObjectNode compile() {
        definitions.profiles().forEach(this::await);
        definitions.coreExtensions().forEach(this::await);
        while (!waiting.isEmpty()) {
            compile(waiting.remove());
        }
        // An invariant may ask for any of the package's own by its address.
        definitions.valueSets().forEach(terminology::addValueSet);
        ObjectNode all = Nodes.JSON.createObjectNode();
        all.put("canonical", definitions.canonical());
        ObjectNode byUrl = all.putObject("definitions");
        compiled.forEach(byUrl::set);
        all.set("nodes", nodes.all());
        all.set("invariants", invariants.all());
        all.set("valueSets", terminology.valueSets());
        all.set("codeSystems", terminology.codeSystems());
        return all;
    }

    private void await(StructureDefinition definition) {
        if (seen.add(definition.getUrl())) {
            waiting.add(definition);
        }
    }

    private void compile(StructureDefinition definition) {
        ElementCompiler elements = new ElementCompiler(
                fhir, nodes, invariants, definition, Objects.requireNonNull(definitions.find(definition.getType())));
        ObjectNode node = Nodes.JSON.createObjectNode();
        node.put("type", definition.getType()).put("kind", definition.getKind().toCode());
        node.put("profile", definition.getDerivation() == StructureDefinition.TypeDerivationRule.CONSTRAINT);
        node.put("version", definition.getVersion());
        node.put("abstract", definition.getAbstract());
        ArrayNode contexts = node.putArray("contexts");
        definition.getContext().forEach(it -> {
            if (it.getType() == StructureDefinition.ExtensionContextType.FHIRPATH) {
                throw new UnknownConstructException(definition.getUrl(), "context", "a context by FHIRPath");
            }
            contexts.addObject().put("type", it.getType().toCode()).put("expression", it.getExpression());
        });
        node.put("root", elements.compile());
        ObjectNode named = node.putObject("named");
        elements.named().forEach(named::put);
        compiled.put(definition.getUrl(), node);
        elements.reached().forEach(this::reach);
        if (definition.hasBaseDefinition()) {
            reach(definition.getBaseDefinition());
        }
        elements.valueSets().forEach(terminology::addValueSet);
    }

    private void reach(String type) {
        if (NOT_DEFINED.contains(type)) {
            return;
        }
        StructureDefinition definition = definitions.find(type);
        if (definition == null) {
            throw new UnknownConstructException(type, "snapshot", "a type or profile without a definition");
        }
        await(definition);
    }
}
