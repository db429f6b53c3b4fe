package example.tamponade.conformance.check;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What a bundle asks of its entries beyond its invariants.
 *
 * <p>Source: FHIR R4, <a href="http://hl7.org/fhir/R4/bundle.html">Bundle</a> and <a
 * href="http://hl7.org/fhir/R4/documents.html#content">FHIR Documents</a>.
 */
final class BundleCheck {

    private static final Set<String> WITHOUT_ADDRESS =
            Set.of("transaction", "transaction-response", "batch", "batch-response");

    private final Element bundle;
    private final Whole whole;
    private final Findings findings;
    private final List<Element> entries = new ArrayList<>();

    BundleCheck(Element bundle, Whole whole, Findings findings) {
        this.bundle = bundle;
        this.whole = whole;
        this.findings = findings;
        for (Element child : bundle.children()) {
            if (child.name().equals("entry")) {
                entries.add(child);
            }
        }
    }

    /** Lets the references of the entries lead to one another. */
    void addAddresses() {
        whole.isBundle();
        for (Element entry : entries) {
            String fullUrl = entry.childText("fullUrl");
            Element resource = entry.child("resource");
            if (fullUrl != null && resource != null) {
                whole.addresses().add(fullUrl, resource);
            }
        }
    }

    void check() {
        String type = bundle.childText("type");
        for (Element entry : entries) {
            address(entry, type);
        }
        if ("document".equals(type)) {
            document();
        }
    }

    private void address(Element entry, @Nullable String type) {
        String fullUrl = entry.childText("fullUrl");
        if (fullUrl == null || fullUrl.isEmpty()) {
            if (type == null || !WITHOUT_ADDRESS.contains(type)) {
                findings.error(
                        entry, "Except for transactions and batches, each entry in a Bundle must have a fullUrl");
            }
            return;
        }
        Element resource = entry.child("resource");
        if (!Primitives.isAbsolute(fullUrl)) {
            findings.error(bundle, ".entry", "The fullUrl must be an absolute URL (not '" + fullUrl + "')");
        } else if (resource != null && Addresses.isRestful(fullUrl)) {
            String id = resource.childText("id");
            if (id == null || !fullUrl.endsWith("/" + resource.type() + "/" + id)) {
                findings.error(
                        bundle,
                        ".entry",
                        "The fullUrl '" + fullUrl + "' does not match the resource's type and id, " + resource.type()
                                + "/" + id);
            }
        }
    }

    private void document() {
        if (entries.isEmpty()) {
            findings.error(bundle, "Documents or Messages must contain at least one entry");
            return;
        }
        Element composition = entries.get(0).child("resource");
        if (composition == null || !composition.type().equals("Composition")) {
            findings.error(entries.get(0), "The first entry in a document must be a composition");
        } else {
            for (String name : List.of("subject", "author", "encounter", "custodian")) {
                references(composition, name);
            }
            nested(composition, "attester", "party");
            nested(composition, "event", "detail");
            sections(composition);
        }
        reachable();
    }

    private void sections(Element parent) {
        for (Element section : parent.children()) {
            if (section.name().equals("section")) {
                references(section, "author");
                references(section, "focus");
                references(section, "entry");
                sections(section);
            }
        }
    }

    private void nested(Element parent, String name, String reference) {
        for (Element child : parent.children()) {
            if (child.name().equals(name)) {
                references(child, reference);
            }
        }
    }

    private void references(Element parent, String name) {
        for (Element child : parent.children()) {
            String to = child.name().equals(name) ? child.childText("reference") : null;
            if (to != null && !to.isEmpty() && !to.startsWith("#") && whole.bundled(to, child) == null) {
                findings.error(child, "Can't find '" + to + "' in the bundle");
            }
        }
    }

    // Backwards only a Provenance may lead to what belongs to the document.
    private void reachable() {
        Map<Element, List<Element>> targets = new IdentityHashMap<>();
        Map<Element, List<Element>> sources = new IdentityHashMap<>();
        for (Element entry : entries) {
            Element resource = entry.child("resource");
            if (resource != null) {
                for (Element target : targets(resource, new ArrayList<>())) {
                    targets.computeIfAbsent(resource, key -> new ArrayList<>()).add(target);
                    sources.computeIfAbsent(target, key -> new ArrayList<>()).add(resource);
                }
            }
        }
        Set<Element> reached = java.util.Collections.newSetFromMap(new IdentityHashMap<>());
        Element first = entries.get(0).child("resource");
        if (first != null) {
            spread(first, targets, reached);
        }
        backwards(targets, sources, reached);
        for (Element entry : entries) {
            Element resource = entry.child("resource");
            if (resource != null && !reached.contains(resource)) {
                findings.error(
                        entry,
                        "This entry isn't reachable by traversing links (forward or backward) from the"
                                + " Composition");
            }
        }
    }

    private void backwards(
            Map<Element, List<Element>> targets, Map<Element, List<Element>> sources, Set<Element> reached) {
        Deque<Element> open = new ArrayDeque<>(reached);
        while (!open.isEmpty()) {
            for (Element source : sources.getOrDefault(open.remove(), List.of())) {
                if (!reached.contains(source)) {
                    if (!source.type().equals("Provenance") && source.parent() != null) {
                        findings.warning(
                                source.parent(),
                                "This entry isn't reachable by traversing forwards from the"
                                        + " Composition. Only Provenance is approved to be used this way");
                    }
                    open.addAll(spread(source, targets, reached));
                }
            }
        }
    }

    private static Set<Element> spread(Element from, Map<Element, List<Element>> targets, Set<Element> reached) {
        Set<Element> added = new HashSet<>();
        Deque<Element> open = new ArrayDeque<>(List.of(from));
        while (!open.isEmpty()) {
            Element at = open.remove();
            if (reached.add(at)) {
                added.add(at);
                open.addAll(targets.getOrDefault(at, List.of()));
            }
        }
        return added;
    }

    private List<Element> targets(Element element, List<Element> found) {
        for (Element child : element.children()) {
            if (child.type().equals("Reference")) {
                String to = child.childText("reference");
                Element target = to == null ? null : whole.bundled(to, child);
                if (target != null) {
                    found.add(target);
                }
            }
            targets(child, found);
        }
        return found;
    }
}
