package example.tamponade.conformance.compile;

import example.tamponade.conformance.fhirpath.Functions;
import java.util.Set;
import org.hl7.fhir.exceptions.FHIRException;
import org.hl7.fhir.r4.fhirpath.ExpressionNode;
import org.hl7.fhir.r4.fhirpath.FHIRPathEngine;
import org.hl7.fhir.r4.model.Base;
import tools.jackson.databind.node.ArrayNode;

/** FHIRPath as a tree of JSON arrays: {@code [kind, …]}, operators in the order in which they bind. */
final class ExpressionCompiler {

    private static final Set<String> OPERATORS = Set.of(
            "=",
            "!=",
            ">",
            "<",
            ">=",
            "<=",
            "|",
            "and",
            "or",
            "xor",
            "implies",
            "in",
            "contains",
            "is",
            "as",
            "&",
            "+",
            "-",
            "*",
            "/",
            "~");

    private final FHIRPathEngine parser;

    ExpressionCompiler(FHIRPathEngine parser) {
        this.parser = parser;
    }

    /**
     * Parses an expression.
     *
     * @throws IllegalArgumentException when it uses what is not known here
     */
    ArrayNode compile(String expression) {
        try {
            return tree(parser.parse(expression));
        } catch (FHIRException e) {
            throw new IllegalArgumentException("FHIRPath that cannot be parsed: " + e.getMessage(), e);
        }
    }

    private ArrayNode tree(ExpressionNode node) {
        ArrayNode left = term(node);
        ExpressionNode.Operation operation = node.getOperation();
        for (ExpressionNode next = node.getOpNext(); next != null; next = next.getOpNext()) {
            String operator = operation.toCode();
            if (!OPERATORS.contains(operator)) {
                throw new IllegalArgumentException("the FHIRPath operator " + operator);
            }
            left = Nodes.JSON
                    .createArrayNode()
                    .add("op")
                    .add(operator)
                    .add(left)
                    .add(term(next));
            operation = next.getOperation();
        }
        return left;
    }

    // A term and what follows it after dots.
    private ArrayNode term(ExpressionNode node) {
        ArrayNode path = Nodes.JSON.createArrayNode().add("path");
        for (ExpressionNode step = node; step != null; step = step.getInner()) {
            path.add(step(step));
        }
        return path;
    }

    private ArrayNode step(ExpressionNode step) {
        ArrayNode array = Nodes.JSON.createArrayNode();
        switch (step.getKind()) {
            case Name -> array.add("name").add(step.getName());
            case Constant -> constant(array, step.getConstant());
            case Group -> array.add("group").add(tree(step.getGroup()));
            case Function -> function(array, step);
            default -> throw new IllegalArgumentException("the FHIRPath term " + step);
        }
        return array;
    }

    private void function(ArrayNode array, ExpressionNode step) {
        String name = step.getName();
        if (!Functions.isKnown(name)) {
            throw new IllegalArgumentException("the FHIRPath function " + name);
        }
        array.add("function").add(name);
        step.getParameters().forEach(it -> array.add(tree(it)));
    }

    private static void constant(ArrayNode array, Base constant) {
        String text = constant.primitiveValue();
        if (text == null) {
            text = constant.toString();
        }
        if (text.startsWith("%")) {
            array.add("variable").add(text);
        } else {
            array.add("constant").add(constant.fhirType()).add(text);
        }
    }
}
