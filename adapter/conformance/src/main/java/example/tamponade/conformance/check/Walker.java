package example.tamponade.conformance.check;

import example.tamponade.conformance.rules.Definition;
import example.tamponade.conformance.rules.Invariant;
import example.tamponade.conformance.rules.Profiles;
import example.tamponade.conformance.rules.Rules;
import example.tamponade.conformance.rules.Slice;
import example.tamponade.conformance.rules.TypeRule;
import java.math.BigDecimal;
import java.util.List;
import java.util.Set;

/** Holds an element and all that is in it to the rules of one profile. */
final class Walker {

    private static final String ELE_1 = "ele-1";
    // As written it compares every contained resource with every element; ContainedCheck says the same in one pass.
    private static final String DOM_3 = "dom-3";
    private static final Set<String> ABSTRACT = Set.of("Resource", "Element", "BackboneElement", "DomainResource");

    private final Profiles profiles;
    private final Findings findings;
    private final CodeCheck codes;
    private final ReferenceCheck references;
    private final ExtensionCheck extensions;
    private final CheckScope scope;

    Walker(Profiles profiles, Findings findings, Whole whole) {
        this.profiles = profiles;
        this.findings = findings;
        this.codes = new CodeCheck(profiles, findings);
        this.references = new ReferenceCheck(profiles, findings, whole);
        this.extensions = new ExtensionCheck(profiles, findings);
        this.scope = new CheckScope(profiles);
    }

    /** Holds a resource, a value of a type or an extension to a definition. */
    void walk(Element element, Definition definition) {
        own(element, definition.root(), definition);
        children(element, definition.root(), definition);
    }

    private void own(Element element, Rules rules, Definition in) {
        Rules.Head head = rules.head();
        if (head.fixed() != null) {
            Patterns.check(element, head.fixed(), true, in.url(), findings);
        }
        if (head.pattern() != null) {
            Patterns.check(element, head.pattern(), false, in.url(), findings);
        }
        limits(element, head);
        List<Invariant> invariants = rules.invariants();
        for (int i = 0; i < invariants.size(); i++) {
            invariant(element, invariants.get(i));
        }
    }

    private void invariant(Element element, Invariant invariant) {
        if (invariant.key().equals(DOM_3) || (invariant.key().equals(ELE_1) && holdsSomething(element))) {
            return;
        }
        if (!invariant.expression().holds(element, scope.of(element))) {
            String message = "Constraint failed: " + invariant.key() + ": '" + invariant.human() + "' (defined in "
                    + invariant.source() + ")";
            if (invariant.error()) {
                findings.error(element, message);
            } else {
                findings.warning(element, message);
            }
        }
    }

    // What ele-1 asks for, without a detour.
    private static boolean holdsSomething(Element element) {
        String text = element.text();
        return text == null
                ? element.children().stream().anyMatch(it -> !it.name().equals("id"))
                : !text.isEmpty();
    }

    private void limits(Element element, Rules.Head head) {
        String text = element.text();
        if (text == null) {
            return;
        }
        if (head.maxLength() >= 0 && text.length() > head.maxLength()) {
            findings.error(element, "value is longer than permitted maximum length of " + head.maxLength());
        }
        if (head.least() != null || head.most() != null) {
            BigDecimal value = Primitives.error("decimal", text) == null ? new BigDecimal(text) : null;
            if (value != null && head.least() != null && value.compareTo(head.least()) < 0) {
                findings.error(element, "value is less than permitted minimum value of " + head.least());
            }
            if (value != null && head.most() != null && value.compareTo(head.most()) > 0) {
                findings.error(element, "value is greater than permitted maximum value of " + head.most());
            }
        }
    }

    private void children(Element parent, Rules rules, Definition in) {
        Rules[] all = rules.children();
        List<Element> children = parent.children();
        for (Rules child : all) {
            String name = child.head().name();
            int count = 0;
            for (int i = 0; i < children.size(); i++) {
                if (children.get(i).name().equals(name)) {
                    count++;
                    child(children.get(i), child, in);
                }
            }
            cardinality(parent, child, count, in);
            if (child.slices().length > 0) {
                slices(parent, child, in);
            }
        }
    }

    private void cardinality(Element parent, Rules rules, int count, Definition in) {
        Rules.Head head = rules.head();
        if (count < head.min() && !(parent.text() != null && head.name().equals("value"))) {
            findings.error(
                    parent,
                    name(head) + ": minimum required = " + head.min() + ", but only found " + count + " (from "
                            + in.url() + ")");
        }
        if (head.max() >= 0 && count > head.max()) {
            findings.error(
                    parent,
                    name(head) + ": max allowed = " + head.max() + ", but found " + count + " (from " + in.url() + ")");
        }
    }

    private static String name(Rules.Head head) {
        return head.slice() == null ? head.path() : head.path() + ":" + head.slice();
    }

    private void slices(Element parent, Rules sliced, Definition in) {
        Slice[] slices = sliced.slices();
        int[] counts = new int[slices.length];
        for (Element child : parent.children()) {
            if (child.name().equals(sliced.head().name())) {
                int slice = slice(child, slices);
                if (slice >= 0) {
                    counts[slice]++;
                    child(child, slices[slice].rules(), in);
                } else if (sliced.head().closed()) {
                    findings.error(child, "This element does not match any known slice defined in " + in.url());
                }
            }
        }
        for (int i = 0; i < slices.length; i++) {
            Rules.Head head = slices[i].rules().head();
            if (counts[i] < head.min()) {
                findings.error(
                        parent,
                        "Slice '" + name(head) + "': a matching slice is required, but not found (from " + in.url()
                                + ")");
            }
            if (head.max() >= 0 && counts[i] > head.max()) {
                findings.error(
                        parent,
                        name(head) + ": max allowed = " + head.max() + ", but found " + counts[i] + " (from " + in.url()
                                + ")");
            }
        }
    }

    private int slice(Element child, Slice[] slices) {
        for (int i = 0; i < slices.length; i++) {
            if (slices[i].match().holds(child, scope.of(child))) {
                return i;
            }
        }
        return -1;
    }

    private void child(Element element, Rules rules, Definition in) {
        TypeRule type = type(element, rules, in);
        own(element, rules, in);
        codes.check(element, rules, in);
        if (type != null && element.type().equals("Reference")) {
            references.check(element, type, this);
        }
        if (element.isResource()) {
            if (type != null && type.code().equals(element.type())) {
                profiled(element, type);
            }
            return;
        }
        if (rules.like() != null) {
            Rules same = profiles.named(in.url(), rules.like());
            own(element, same, in);
            children(element, same, in);
            return;
        }
        boolean inline = rules.children().length > 0;
        if (inline) {
            children(element, rules, in);
        }
        if (type != null && !type.profiles().isEmpty() && !element.type().equals("Extension")) {
            profiled(element, type);
        } else if (!(inline && ABSTRACT.contains(element.type()))
                && !element.type().equals("Extension")) {
            Definition definition = profiles.type(element.type());
            if (definition != null
                    && !(element.text() != null
                            && element.children().isEmpty()
                            && !element.type().equals("xhtml"))) {
                walk(element, definition);
            }
        }
        if (element.type().equals("Extension")) {
            extensions.check(element, this);
        }
    }

    private void profiled(Element element, TypeRule type) {
        for (String url : type.profiles()) {
            Definition profile = profiles.definition(url);
            if (profile != null) {
                walk(element, profile);
            }
        }
    }

    private @org.jspecify.annotations.Nullable TypeRule type(Element element, Rules rules, Definition in) {
        List<TypeRule> types = rules.types();
        for (int i = 0; i < types.size(); i++) {
            if (types.get(i).code().equals(element.type())) {
                return types.get(i);
            }
        }
        boolean open = types.isEmpty() || ABSTRACT.contains(types.get(0).code());
        if (!open
                && !(element.type().equals("string") && types.get(0).code().equals("id"))
                && !(element.type().equals("id") && types.get(0).code().equals("string"))) {
            findings.error(
                    element,
                    "The Profile " + in.url() + " definition allows for the type "
                            + types.get(0).code() + " but found type " + element.type());
        }
        return types.isEmpty() ? null : types.get(0);
    }
}
