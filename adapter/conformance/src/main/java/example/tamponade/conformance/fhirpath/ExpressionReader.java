package example.tamponade.conformance.fhirpath;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import tools.jackson.databind.JsonNode;

/** Makes an expression of the tree that it was parsed to. */
public final class ExpressionReader {

    private ExpressionReader() {}

    /** A step of a path: from the items before the dot to those behind it. */
    private interface Step {
        List<?> take(List<?> input, Object focus, Scope scope);
    }

    /** The expression of a tree of arrays. */
    public static Expression read(JsonNode tree) {
        if (tree.get(0).stringValue().equals("op")) {
            return operator(tree);
        }
        List<Step> steps = new ArrayList<>();
        for (int i = 1; i < tree.size(); i++) {
            steps.add(step(tree.get(i), i == 1));
        }
        Step first = steps.get(0);
        if (steps.size() == 1) {
            return (focus, scope) -> first.take(List.of(focus), focus, scope);
        }
        Step[] rest = steps.subList(1, steps.size()).toArray(Step[]::new);
        return (focus, scope) -> {
            List<?> items = first.take(List.of(focus), focus, scope);
            for (Step step : rest) {
                items = step.take(items, focus, scope);
            }
            return items;
        };
    }

    private static Expression operator(JsonNode tree) {
        String operator = tree.get(1).stringValue();
        Expression left = read(tree.get(2));
        if (operator.equals("is") || operator.equals("as")) {
            String type = typeName(tree.get(3));
            return (focus, scope) -> Types.call(operator, left.evaluate(focus, scope), type);
        }
        return Operators.of(operator, left, read(tree.get(3)));
    }

    private static Step step(JsonNode step, boolean first) {
        String value = step.get(1).isString() ? step.get(1).stringValue() : "";
        return switch (step.get(0).stringValue()) {
            case "name" -> name(value, first);
            case "group" -> group(read(step.get(1)));
            case "variable" -> variable(value);
            case "constant" -> constant(value, step.get(2).stringValue());
            default -> function(value, step);
        };
    }

    private static Step name(String name, boolean first) {
        if (name.equals("$this")) {
            return (input, focus, scope) -> List.of(focus);
        }
        boolean type = first && Character.isUpperCase(name.charAt(0));
        return (input, focus, scope) -> type ? ofType(input, name) : Tree.named(input, name);
    }

    private static List<?> ofType(List<?> input, String type) {
        return input.stream()
                .filter(it -> it instanceof Node node && node.type().equals(type))
                .toList();
    }

    private static Step group(Expression expression) {
        return (input, focus, scope) -> expression.evaluate(focus, scope);
    }

    private static Step variable(String name) {
        return switch (name) {
            case "%resource" -> (input, focus, scope) -> List.of(scope.resource());
            case "%rootResource" -> (input, focus, scope) -> List.of(scope.rootResource());
            default -> throw new IllegalArgumentException("the FHIRPath variable " + name);
        };
    }

    private static Step constant(String type, String text) {
        List<Object> value = List.of(
                switch (type) {
                    case "boolean" -> Boolean.valueOf(text);
                    case "integer", "decimal" -> new BigDecimal(text);
                    default -> text;
                });
        return (input, focus, scope) -> value;
    }

    private static Step function(String name, JsonNode step) {
        if (Types.isFunction(name)) {
            String type = typeName(step.get(2));
            return (input, focus, scope) -> Types.call(name, input, type);
        }
        if (name.equals("matches")) {
            return matches(step.get(2));
        }
        List<Expression> arguments = new ArrayList<>();
        for (int i = 2; i < step.size(); i++) {
            arguments.add(read(step.get(i)));
        }
        Function function = Functions.of(name);
        return (input, focus, scope) -> function.call(input, arguments, focus, scope);
    }

    // The pattern is always a literal, so it is read once. It matches where it is found, as FHIRPath N1 has it.
    private static Step matches(JsonNode argument) {
        Pattern pattern = Pattern.compile(argument.get(1).get(2).stringValue(), Pattern.DOTALL);
        return (input, focus, scope) -> {
            String text = input.size() == 1 ? Values.string(input.get(0)) : null;
            return text == null ? List.of() : Values.of(pattern.matcher(text).find());
        };
    }

    private static String typeName(JsonNode tree) {
        JsonNode last = tree.get(tree.size() - 1);
        return last.get(1).stringValue();
    }
}
