package example.tamponade.conformance.check;

import example.tamponade.conformance.rules.Definition;
import example.tamponade.conformance.rules.Profiles;
import example.tamponade.conformance.rules.Rules;
import example.tamponade.conformance.rules.TypeRule;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Whether an extension is known, may stand where it stands, and holds what it may. */
final class ExtensionCheck {

    private final Profiles profiles;
    private final Findings findings;

    ExtensionCheck(Profiles profiles, Findings findings) {
        this.profiles = profiles;
        this.findings = findings;
    }

    void check(Element extension, Walker walker) {
        String url = extension.childText("url");
        Definition definition = url == null ? null : profiles.definition(url);
        if (url == null || url.isEmpty()) {
            findings.error(extension, "Extension.url is required in order to identify, use and validate the extension");
        } else if (!isNested(extension) && !Primitives.isAbsolute(url)) {
            findings.error(extension, "Extension.url must be an absolute URL");
        }
        if (definition != null && definition.type().equals("Extension")) {
            known(extension, definition, walker);
            return;
        }
        if (url != null) {
            unknown(extension, url);
        }
        Definition base = profiles.type("Extension");
        if (base != null) {
            walker.walk(extension, base);
        }
    }

    private static boolean isNested(Element extension) {
        Element parent = extension.parent();
        return parent != null && parent.type().equals("Extension");
    }

    // FHIR lets unknown extensions pass; one at an address of the package that it does not define is a misspelling.
    private void unknown(Element extension, String url) {
        if (url.startsWith(profiles.canonical() + "/StructureDefinition/")
                && url.lastIndexOf('/') == (profiles.canonical() + "/StructureDefinition/").length() - 1) {
            findings.error(extension, "Unknown extension " + url);
        }
    }

    private void known(Element extension, Definition definition, Walker walker) {
        if (!mayStand(extension, definition)) {
            findings.error(
                    parent(extension),
                    "The extension " + definition.url() + " is not allowed to be used at this point");
        }
        if (extension.name().equals("modifierExtension")) {
            findings.error(extension, "The extension " + definition.url() + " must not be used as a modifierExtension");
        }
        value(extension, definition);
        walker.walk(extension, definition);
    }

    private static Element parent(Element extension) {
        Element parent = extension.parent();
        return parent == null ? extension : parent;
    }

    private void value(Element extension, Definition definition) {
        Element value = extension.child("value");
        List<String> allowed = new ArrayList<>();
        for (Rules child : definition.root().children()) {
            if (child.head().name().equals("value") && child.head().max() != 0) {
                child.types().stream().map(TypeRule::code).forEach(allowed::add);
            }
        }
        if (value != null && !allowed.contains(value.type())) {
            findings.error(
                    extension,
                    "The Extension '" + definition.url() + "' definition allows for the types " + allowed
                            + " but found type " + value.type());
        } else if (value == null && extension.child("extension") == null && !allowed.isEmpty()) {
            findings.error(
                    extension,
                    "The Extension '" + definition.url()
                            + "' definition is for a simple extension, so it must contain a value");
        }
    }

    private boolean mayStand(Element extension, Definition definition) {
        Element parent = parent(extension);
        for (Definition.Context context : definition.contexts()) {
            if (context.type().equals("extension")
                    ? context.expression().equals(parent.childText("url"))
                    : isAt(parent, context.expression())) {
                return true;
            }
        }
        return definition.contexts().isEmpty();
    }

    private static boolean isAt(Element parent, String expression) {
        if (expression.equals("Element")
                || (expression.equals("Resource") && parent.isResource())
                || (expression.equals("DomainResource") && parent.isResource())
                || expression.equals(parent.type())) {
            return true;
        }
        String path = definitionPath(parent);
        return path != null && (path.equals(expression) || path.equals(expression.replace("[x]", "")));
    }

    private static @Nullable String definitionPath(Element element) {
        StringBuilder path = new StringBuilder();
        Element at = element;
        while (!at.isResource()) {
            path.insert(0, "." + at.name());
            Element parent = at.parent();
            if (parent == null) {
                return null;
            }
            at = parent;
        }
        return at.type() + path;
    }
}
