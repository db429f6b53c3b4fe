package example.tamponade.conformance.compile;

import org.hl7.fhir.r4.model.ElementDefinition.ElementDefinitionConstraintComponent;
import org.hl7.fhir.validation.instance.utils.FHIRPathExpressionFixer;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** The invariants of all profiles, each once. */
final class Invariants {

    private static final String BEST_PRACTICE =
            "http://hl7.org/fhir/StructureDefinition/elementdefinition-bestpractice";

    private static final String R4 = "4.0.1";

    private final Nodes nodes = new Nodes();
    private final ExpressionCompiler expressions;

    Invariants(ExpressionCompiler expressions) {
        this.expressions = expressions;
    }

    /**
     * The place of an invariant.
     *
     * @throws IllegalArgumentException when its expression cannot be compiled
     */
    int place(ElementDefinitionConstraintComponent constraint, String profile) {
        ObjectNode node = Nodes.JSON.createObjectNode();
        node.put("key", constraint.getKey())
                .put("severity", constraint.getSeverity().toCode());
        node.put("human", constraint.getHuman());
        node.put("source", constraint.hasSource() ? constraint.getSource() : profile);
        node.put("bestPractice", constraint.hasExtension(BEST_PRACTICE));
        // R4 was published with a few expressions that do not say what is meant; the library knows them.
        String meant = FHIRPathExpressionFixer.fixExpr(constraint.getExpression(), constraint.getKey(), R4);
        node.set("expression", expressions.compile(meant));
        return nodes.place(node);
    }

    ArrayNode expression(String expression) {
        return expressions.compile(expression);
    }

    ArrayNode all() {
        return nodes.all();
    }
}
