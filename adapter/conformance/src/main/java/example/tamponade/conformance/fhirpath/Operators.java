package example.tamponade.conformance.fhirpath;

import java.math.BigDecimal;
import java.util.List;
import java.util.function.IntPredicate;
import org.jspecify.annotations.Nullable;

/** The operators of FHIRPath. */
final class Operators {

    private Operators() {}

    static Expression of(String operator, Expression left, Expression right) {
        return switch (operator) {
            case "and" -> (focus, scope) -> and(left, right, focus, scope);
            case "or" -> (focus, scope) -> or(left, right, focus, scope);
            case "implies" -> (focus, scope) -> implies(left, right, focus, scope);
            case "xor" -> (focus, scope) -> xor(left.evaluate(focus, scope), right.evaluate(focus, scope));
            case "=" -> (focus, scope) -> equal(left.evaluate(focus, scope), right.evaluate(focus, scope), true);
            case "!=" -> (focus, scope) -> equal(left.evaluate(focus, scope), right.evaluate(focus, scope), false);
            case ">" -> compared(left, right, it -> it > 0);
            case "<" -> compared(left, right, it -> it < 0);
            case ">=" -> compared(left, right, it -> it >= 0);
            case "<=" -> compared(left, right, it -> it <= 0);
            case "|" -> (focus, scope) -> Sets.union(left.evaluate(focus, scope), right.evaluate(focus, scope));
            case "in" -> (focus, scope) -> in(left.evaluate(focus, scope), right.evaluate(focus, scope));
            case "contains" -> (focus, scope) -> in(right.evaluate(focus, scope), left.evaluate(focus, scope));
            case "&" -> (focus, scope) -> List.of(text(left, focus, scope) + text(right, focus, scope));
            case "+" -> (focus, scope) -> plus(left.evaluate(focus, scope), right.evaluate(focus, scope));
            default -> throw new IllegalArgumentException("the FHIRPath operator " + operator);
        };
    }

    private static List<?> and(Expression left, Expression right, Object focus, Scope scope) {
        Boolean one = Values.bool(left.evaluate(focus, scope));
        if (Boolean.FALSE.equals(one)) {
            return Values.of(false);
        }
        Boolean two = Values.bool(right.evaluate(focus, scope));
        if (Boolean.FALSE.equals(two)) {
            return Values.of(false);
        }
        return one == null || two == null ? List.of() : Values.of(true);
    }

    private static List<?> or(Expression left, Expression right, Object focus, Scope scope) {
        Boolean one = Values.bool(left.evaluate(focus, scope));
        if (Boolean.TRUE.equals(one)) {
            return Values.of(true);
        }
        Boolean two = Values.bool(right.evaluate(focus, scope));
        if (Boolean.TRUE.equals(two)) {
            return Values.of(true);
        }
        return one == null || two == null ? List.of() : Values.of(false);
    }

    private static List<?> implies(Expression left, Expression right, Object focus, Scope scope) {
        Boolean one = Values.bool(left.evaluate(focus, scope));
        if (Boolean.FALSE.equals(one)) {
            return Values.of(true);
        }
        Boolean two = Values.bool(right.evaluate(focus, scope));
        if (Boolean.TRUE.equals(two)) {
            return Values.of(true);
        }
        return one == null || two == null ? List.of() : Values.of(false);
    }

    private static List<?> xor(List<?> left, List<?> right) {
        Boolean one = Values.bool(left);
        Boolean two = Values.bool(right);
        return one == null || two == null ? List.of() : Values.of(one ^ two);
    }

    private static List<?> equal(List<?> left, List<?> right, boolean wanted) {
        if (left.isEmpty() || right.isEmpty()) {
            return List.of();
        }
        boolean equal = left.size() == right.size();
        for (int i = 0; equal && i < left.size(); i++) {
            equal = Values.equal(left.get(i), right.get(i));
        }
        return Values.of(equal == wanted);
    }

    private static Expression compared(Expression left, Expression right, IntPredicate holds) {
        return (focus, scope) -> {
            List<?> one = left.evaluate(focus, scope);
            List<?> two = right.evaluate(focus, scope);
            Integer order = one.size() == 1 && two.size() == 1 ? Values.compare(one.get(0), two.get(0)) : null;
            return order == null ? List.of() : Values.of(holds.test(order));
        };
    }

    private static List<?> in(List<?> left, List<?> right) {
        if (left.isEmpty()) {
            return List.of();
        }
        return Values.of(left.stream().allMatch(it -> Sets.contains(right, it)));
    }

    private static List<?> plus(List<?> left, List<?> right) {
        if (left.size() != 1 || right.size() != 1) {
            return List.of();
        }
        BigDecimal one = Values.number(left.get(0));
        BigDecimal two = Values.number(right.get(0));
        return one != null && two != null
                ? List.of(one.add(two))
                : List.of(orEmpty(Values.string(left.get(0))) + orEmpty(Values.string(right.get(0))));
    }

    private static String text(Expression part, Object focus, Scope scope) {
        return orEmpty(part.string(focus, scope));
    }

    private static String orEmpty(@Nullable String text) {
        return text == null ? "" : text;
    }
}
