package example.tamponade.conformance.fhirpath;

import java.util.ArrayList;
import java.util.List;

/** Steps down the tree of elements. */
final class Tree {

    private Tree() {}

    static List<?> named(List<?> input, String name) {
        if (input.size() == 1) {
            return input.get(0) instanceof Node node ? named(node, name) : List.of();
        }
        List<Object> found = new ArrayList<>(input.size());
        for (Object item : input) {
            if (item instanceof Node node) {
                found.addAll(named(node, name));
            }
        }
        return found;
    }

    // Most elements are there once or not at all, and nothing needs to be copied then.
    private static List<?> named(Node node, String name) {
        List<? extends Node> children = node.children();
        int first = next(children, name, 0);
        if (first < 0) {
            return List.of();
        }
        int second = next(children, name, first + 1);
        if (second < 0) {
            return List.of(children.get(first));
        }
        List<Object> found = new ArrayList<>(children.size());
        found.add(children.get(first));
        for (int i = second; i >= 0; i = next(children, name, i + 1)) {
            found.add(children.get(i));
        }
        return found;
    }

    private static int next(List<? extends Node> children, String name, int from) {
        for (int i = from; i < children.size(); i++) {
            if (children.get(i).name().equals(name)) {
                return i;
            }
        }
        return -1;
    }

    static List<Object> children(List<?> input) {
        List<Object> children = new ArrayList<>();
        for (Object item : input) {
            if (item instanceof Node node) {
                children.addAll(node.children());
            }
        }
        return children;
    }

    static List<Object> descendants(List<?> input) {
        List<Object> found = new ArrayList<>();
        for (Object item : input) {
            if (item instanceof Node node) {
                addDescendants(node, found);
            }
        }
        return found;
    }

    private static void addDescendants(Node node, List<Object> found) {
        for (Node child : node.children()) {
            found.add(child);
            addDescendants(child, found);
        }
    }

    static List<?> extensions(List<?> input, String url) {
        return named(input, "extension").stream()
                .filter(it -> ((Node) it)
                        .children().stream().anyMatch(child -> child.name().equals("url") && url.equals(child.text())))
                .toList();
    }
}
