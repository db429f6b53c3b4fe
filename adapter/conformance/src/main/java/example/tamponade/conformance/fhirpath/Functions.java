package example.tamponade.conformance.fhirpath;

import example.tamponade.conformance.markup.Narrative;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.BiFunction;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;

/** The functions of FHIRPath that invariants of FHIR R4 use; those on types are in {@link Types}. */
public final class Functions {

    private static final Map<String, Function> ALL = new HashMap<>();

    static {
        existence();
        filters();
        strings();
        sets();
        tree();
        markup();
    }

    private Functions() {}

    /** Whether an expression may call it. */
    public static boolean isKnown(String name) {
        return ALL.containsKey(name) || Types.isFunction(name) || name.equals("matches");
    }

    static Function of(String name) {
        Function function = ALL.get(name);
        if (function == null) {
            throw new IllegalArgumentException("no FHIRPath function " + name);
        }
        return function;
    }

    private static void existence() {
        ALL.put("empty", (input, arguments, focus, scope) -> Values.of(input.isEmpty()));
        ALL.put(
                "exists",
                (input, arguments, focus, scope) -> Values.of(
                        arguments.isEmpty()
                                ? !input.isEmpty()
                                : input.stream().anyMatch(it -> isTrue(arguments.get(0), it, scope))));
        ALL.put("all", (input, arguments, focus, scope) -> Values.of(!any(input, arguments.get(0), false, scope)));
        ALL.put(
                "allTrue",
                (input, arguments, focus, scope) ->
                        Values.of(input.stream().allMatch(it -> Boolean.TRUE.equals(Values.bool(List.of(it))))));
        ALL.put(
                "allFalse",
                (input, arguments, focus, scope) ->
                        Values.of(input.stream().allMatch(it -> Boolean.FALSE.equals(Values.bool(List.of(it))))));
        ALL.put("not", (input, arguments, focus, scope) -> {
            Boolean value = Values.bool(input);
            return value == null ? List.of() : Values.of(!value);
        });
        ALL.put(
                "hasValue",
                (input, arguments, focus, scope) ->
                        Values.of(input.size() == 1 && Values.string(input.get(0)) != null));
        ALL.put("count", (input, arguments, focus, scope) -> List.of(BigDecimal.valueOf(input.size())));
        ALL.put(
                "isDistinct",
                (input, arguments, focus, scope) ->
                        Values.of(Sets.distinct(input).size() == input.size()));
    }

    private static void filters() {
        ALL.put("where", (input, arguments, focus, scope) -> where(input, arguments.get(0), scope));
        ALL.put("select", (input, arguments, focus, scope) -> {
            List<Object> selected = new ArrayList<>();
            input.forEach(it -> selected.addAll(arguments.get(0).evaluate(it, scope)));
            return selected;
        });
        ALL.put("first", (input, arguments, focus, scope) -> input.isEmpty() ? input : input.subList(0, 1));
        ALL.put(
                "last",
                (input, arguments, focus, scope) ->
                        input.isEmpty() ? input : input.subList(input.size() - 1, input.size()));
        ALL.put("tail", (input, arguments, focus, scope) -> input.isEmpty() ? input : input.subList(1, input.size()));
        ALL.put("iif", (input, arguments, focus, scope) -> {
            if (isTrue(arguments.get(0), focus, scope)) {
                return arguments.get(1).evaluate(focus, scope);
            }
            return arguments.size() > 2 ? arguments.get(2).evaluate(focus, scope) : List.of();
        });
        ALL.put("trace", (input, arguments, focus, scope) -> input);
    }

    private static void strings() {
        ALL.put("startsWith", test(String::startsWith));
        ALL.put("endsWith", test(String::endsWith));
        ALL.put("contains", test(String::contains));
        ALL.put("toString", change(it -> it));
        ALL.put("lower", change(it -> it.toLowerCase(Locale.ROOT)));
        ALL.put("upper", change(it -> it.toUpperCase(Locale.ROOT)));
        ALL.put("trim", change(String::strip));
        ALL.put("length", (input, arguments, focus, scope) -> {
            String text = single(input);
            return text == null ? List.of() : List.of(BigDecimal.valueOf(text.length()));
        });
        ALL.put("replace", (input, arguments, focus, scope) -> {
            String text = single(input);
            String from = arguments.get(0).string(focus, scope);
            String to = arguments.get(1).string(focus, scope);
            return text == null || from == null || to == null ? List.of() : List.of(text.replace(from, to));
        });
        ALL.put("substring", (input, arguments, focus, scope) -> {
            String text = single(input);
            int from = number(arguments.get(0), focus, scope);
            if (text == null || from < 0 || from >= text.length()) {
                return List.of();
            }
            int length = arguments.size() > 1 ? number(arguments.get(1), focus, scope) : text.length();
            return List.of(text.substring(from, Math.min(text.length(), from + length)));
        });
        ALL.put("memberOf", (input, arguments, focus, scope) -> {
            String valueSet = arguments.get(0).string(focus, scope);
            if (valueSet == null || input.size() != 1 || !(input.get(0) instanceof Node coded)) {
                return List.of();
            }
            Boolean member = scope.memberOf(coded, valueSet);
            return member == null ? List.of() : Values.of(member);
        });
    }

    private static void markup() {
        ALL.put("htmlChecks", narrative(Narrative::isAllowed));
        ALL.put("htmlChecks2", narrative(Narrative::hasContent));
    }

    private static Function narrative(Predicate<Narrative> test) {
        return (input, arguments, focus, scope) -> {
            String text = single(input);
            return Values.of(text != null && test.test(Narrative.read(text)));
        };
    }

    private static void sets() {
        ALL.put("distinct", (input, arguments, focus, scope) -> Sets.distinct(input));
        ALL.put(
                "intersect",
                (input, arguments, focus, scope) ->
                        Sets.intersect(input, arguments.get(0).evaluate(focus, scope)));
        ALL.put(
                "union",
                (input, arguments, focus, scope) ->
                        Sets.union(input, arguments.get(0).evaluate(focus, scope)));
        ALL.put(
                "combine",
                (input, arguments, focus, scope) ->
                        Sets.joined(input, arguments.get(0).evaluate(focus, scope)));
    }

    private static void tree() {
        ALL.put("children", (input, arguments, focus, scope) -> Tree.children(input));
        ALL.put("descendants", (input, arguments, focus, scope) -> Tree.descendants(input));
        ALL.put("extension", (input, arguments, focus, scope) -> {
            String url = arguments.get(0).string(focus, scope);
            return url == null ? List.of() : Tree.extensions(input, url);
        });
    }

    private static int number(Expression expression, Object focus, Scope scope) {
        List<?> value = expression.evaluate(focus, scope);
        BigDecimal number = value.size() == 1 ? Values.number(value.get(0)) : null;
        return number == null ? -1 : number.intValue();
    }

    private static Function test(BiFunction<String, String, Boolean> test) {
        return (input, arguments, focus, scope) -> {
            String text = single(input);
            String argument = arguments.get(0).string(focus, scope);
            return text == null || argument == null ? List.of() : Values.of(test.apply(text, argument));
        };
    }

    private static Function change(UnaryOperator<String> change) {
        return (input, arguments, focus, scope) -> {
            String text = single(input);
            return text == null ? List.of() : List.of(change.apply(text));
        };
    }

    private static @Nullable String single(List<?> input) {
        return input.size() == 1 ? Values.string(input.get(0)) : null;
    }

    // Whether the criterion is so of some item.
    private static boolean any(List<?> input, Expression criterion, boolean so, Scope scope) {
        for (Object item : input) {
            if (isTrue(criterion, item, scope) == so) {
                return true;
            }
        }
        return false;
    }

    private static List<?> where(List<?> input, Expression criterion, Scope scope) {
        List<Object> found = new ArrayList<>(input.size());
        for (Object item : input) {
            if (isTrue(criterion, item, scope)) {
                found.add(item);
            }
        }
        return found;
    }

    static boolean isTrue(Expression expression, Object focus, Scope scope) {
        return Boolean.TRUE.equals(Values.bool(expression.evaluate(focus, scope)));
    }
}
