package example.tamponade.conformance.fhirpath;

import java.math.BigDecimal;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** What items are as values, and how they compare. */
final class Values {

    private static final Set<String> TIMES = Set.of("dateTime", "date", "instant");

    private Values() {}

    /** The truth of a collection; null for an empty one. A single item that is no boolean counts as true. */
    static @Nullable Boolean bool(List<?> items) {
        if (items.isEmpty()) {
            return null;
        }
        Object item = items.get(0);
        if (items.size() > 1) {
            return Boolean.TRUE;
        }
        if (item instanceof Boolean value) {
            return value;
        }
        return !(item instanceof Node node) || !node.type().equals("boolean") || "true".equals(node.text());
    }

    static List<Object> of(boolean value) {
        return value ? TRUE : FALSE;
    }

    private static final List<Object> TRUE = List.of(Boolean.TRUE);
    private static final List<Object> FALSE = List.of(Boolean.FALSE);

    static @Nullable String string(Object item) {
        if (item instanceof Node node) {
            return node.text();
        }
        return item instanceof BigDecimal number ? number.toPlainString() : item.toString();
    }

    static @Nullable BigDecimal number(Object item) {
        if (item instanceof BigDecimal number) {
            return number;
        }
        if (item instanceof Node node && node.isNumber()) {
            return number(node.text());
        }
        return null;
    }

    private static @Nullable BigDecimal number(@Nullable String text) {
        try {
            return text == null || text.length() > 100 ? null : new BigDecimal(text);
        } catch (NumberFormatException e) {
            return null;
        }
    }

    static boolean isTime(Object item) {
        return item instanceof Node node && TIMES.contains(node.type());
    }

    /** Whether two items are equal; elements are when all that is in them is. */
    static boolean equal(Object left, Object right) {
        if (left == right) {
            return true;
        }
        BigDecimal number = number(left);
        BigDecimal other = number(right);
        if (number != null && other != null) {
            return number.compareTo(other) == 0;
        }
        if (left instanceof Node one
                && right instanceof Node two
                && !(one.children().isEmpty() && two.children().isEmpty())) {
            return equalNodes(one, two);
        }
        String text = string(left);
        return text != null && text.equals(string(right));
    }

    private static boolean equalNodes(Node left, Node right) {
        List<? extends Node> ours = left.children();
        List<? extends Node> theirs = right.children();
        if (ours.size() != theirs.size()) {
            return false;
        }
        for (Node child : ours) {
            if (theirs.stream().noneMatch(it -> it.name().equals(child.name()) && equal(child, it))) {
                return false;
            }
        }
        return left.text() == null ? right.text() == null : left.text().equals(right.text());
    }

    /** The order of two items; null when they have none. */
    static @Nullable Integer compare(Object left, Object right) {
        BigDecimal number = number(left);
        BigDecimal other = number(right);
        if (number != null && other != null) {
            return number.compareTo(other);
        }
        String text = string(left);
        String second = string(right);
        if (text == null || second == null) {
            return null;
        }
        return isTime(left) && isTime(right) ? Times.compare(text, second) : (Integer) text.compareTo(second);
    }
}
