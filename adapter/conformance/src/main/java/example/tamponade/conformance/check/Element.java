package example.tamponade.conformance.check;

import example.tamponade.conformance.fhirpath.Node;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** An element of a resource, typed by the base definitions. */
final class Element implements Node {

    private static final List<Element> NONE = List.of();

    private final String name;
    private final String type;
    private final @Nullable Element parent;
    private final boolean choice;
    private final int index;
    private final boolean resource;
    private final boolean number;
    private @Nullable String text;
    private List<Element> children = NONE;

    /**
     * Makes an element without content.
     *
     * @param index its place among its repetitions; less than 0 when it cannot repeat
     */
    Element(String name, String type, @Nullable Element parent, boolean choice, int index, boolean resource) {
        this.name = name;
        this.type = type;
        this.parent = parent;
        this.choice = choice;
        this.index = index;
        this.resource = resource;
        this.number = switch (type) {
            case "decimal", "integer", "unsignedInt", "positiveInt" -> true;
            default -> false;
        };
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public String type() {
        return type;
    }

    @Override
    public boolean isNumber() {
        return number;
    }

    @Override
    public @Nullable String text() {
        return text;
    }

    @Override
    public List<Element> children() {
        return children;
    }

    void text(String value) {
        text = value;
    }

    void add(Element child) {
        if (children == NONE) {
            children = new ArrayList<>();
        }
        children.add(child);
    }

    @Nullable
    Element parent() {
        return parent;
    }

    boolean isResource() {
        return resource;
    }

    /** The first child of that name; null when there is none. */
    @Nullable
    Element child(String wanted) {
        for (int i = 0; i < children.size(); i++) {
            if (children.get(i).name.equals(wanted)) {
                return children.get(i);
            }
        }
        return null;
    }

    /** What the first child of that name holds; null when there is none. */
    @Nullable
    String childText(String wanted) {
        Element child = child(wanted);
        return child == null ? null : child.text;
    }

    /** The resource that the element stands in; a resource stands in itself. */
    Element owner() {
        Element at = this;
        while (!at.resource && at.parent != null) {
            at = at.parent;
        }
        return at;
    }

    /** The resource that contains the owner; the owner itself when none does. */
    Element root() {
        Element owner = owner();
        return owner.name.equals("contained") && owner.parent != null ? owner.parent.owner() : owner;
    }

    /** Where the element is, from the resource of a bundle's entry or from the whole. */
    String path() {
        if (parent == null || (resource && parent.type.equals("BackboneElement"))) {
            return type;
        }
        String path = parent.path() + "." + name;
        if (choice) {
            path += ".ofType(" + type + ")";
        }
        return index < 0 ? path : path + "[" + index + "]";
    }

    /** The resource that {@link #path} begins at, as {@code Type/id}. */
    String resourceName() {
        Element at = owner();
        if (at.name.equals("contained") && at.parent != null) {
            at = at.parent.owner();
        }
        String id = at.childText("id");
        return id == null ? at.type : at.type + "/" + id;
    }
}
