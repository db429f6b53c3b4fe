package example.tamponade.conformance.check;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;

/**
 * Whether each contained resource has an id and is referred to.
 *
 * <p>Source: FHIR R4, <a href="http://hl7.org/fhir/R4/domainresource.html">DomainResource</a>, dom-3.
 */
final class ContainedCheck {

    private final Findings findings;

    ContainedCheck(Findings findings) {
        this.findings = findings;
    }

    void check(Element resource) {
        Map<String, Element> contained = new HashMap<>();
        for (Element child : resource.children()) {
            if (child.name().equals("contained")) {
                String id = child.childText("id");
                if (id == null) {
                    findings.error(child, "Resource requires an id, but none is present");
                } else if (contained.put(id, child) != null) {
                    findings.error(child, "Two contained resources have the id '" + id + "'");
                }
            }
        }
        if (!contained.isEmpty()) {
            unreferenced(resource, contained);
        }
    }

    private void unreferenced(Element resource, Map<String, Element> contained) {
        Set<String> reached = new HashSet<>();
        Deque<Element> open = new ArrayDeque<>();
        open.add(resource);
        contained.forEach((id, it) -> {
            if (refersTo(it, "#")) {
                reached.add(id);
                open.add(it);
            }
        });
        while (!open.isEmpty()) {
            collect(open.remove(), contained, reached, open);
        }
        contained.forEach((id, it) -> {
            if (!reached.contains(id)) {
                findings.error(
                        it,
                        "The contained resource '" + id + "' is not referenced to from elsewhere in the"
                                + " containing resource nor does it refer to the containing resource (dom-3)");
            }
        });
    }

    private static void collect(
            Element element, Map<String, Element> contained, Set<String> reached, Deque<Element> open) {
        for (Element child : element.children()) {
            String text = child.text();
            if (child.name().equals("contained")) {
                continue;
            }
            if (text != null && text.startsWith("#") && reached.add(text.substring(1))) {
                Element target = contained.get(text.substring(1));
                if (target != null) {
                    open.add(target);
                }
            }
            collect(child, contained, reached, open);
        }
    }

    private static boolean refersTo(Element element, String reference) {
        return element.children().stream()
                .anyMatch(it ->
                        (it.name().equals("reference") && reference.equals(it.text())) || refersTo(it, reference));
    }
}
