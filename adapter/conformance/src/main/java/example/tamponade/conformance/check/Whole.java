package example.tamponade.conformance.check;

import example.tamponade.conformance.rules.Definition;
import example.tamponade.conformance.rules.Profiles;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** What is checked together: one resource, a bundle, or resources by their type and id. */
final class Whole {

    private final Profiles profiles;
    private final Map<String, Element> byName = new HashMap<>();
    private final Addresses addresses = new Addresses();
    private final Map<Element, Map<Definition, Boolean>> fits = new IdentityHashMap<>();
    private boolean bundle;

    Whole(Profiles profiles) {
        this.profiles = profiles;
    }

    /** Lets references by that name lead to a resource. */
    void add(String name, Element resource) {
        byName.putIfAbsent(name, resource);
    }

    /** From here on references are resolved as a bundle has it. */
    void isBundle() {
        bundle = true;
    }

    Addresses addresses() {
        return addresses;
    }

    /** What a reference leads to; null when it leads out. */
    @Nullable
    Element resolve(String to, Element reference, Findings findings) {
        if (to.startsWith("#")) {
            return contained(to.substring(1), reference, findings);
        }
        if (!bundle) {
            return byName.get(to);
        }
        Element entry = entry(reference);
        String from = entry == null ? null : entry.childText("fullUrl");
        if (from == null && entry != null) {
            findings.error(reference, "Relative Reference appears inside Bundle whose entry is missing a fullUrl");
        }
        if (from != null && Addresses.target(to, from) == null) {
            findings.error(reference, "Relative URLs must be of the format [ResourceName]/[id]. Encountered " + to);
        }
        if (from != null && addresses.isTwice(Addresses.target(to, from))) {
            findings.error(reference, "Multiple matches in bundle for reference " + to);
        }
        return bundled(to, reference);
    }

    /** What a reference in an entry of the bundle leads to in it; null when it leads out. */
    @Nullable
    Element bundled(String to, Element reference) {
        Element entry = entry(reference);
        String from = entry == null ? null : entry.childText("fullUrl");
        return from == null ? null : addresses.get(Addresses.target(to, from));
    }

    private static @Nullable Element entry(Element element) {
        for (Element at = element; at != null; at = at.parent()) {
            if (at.name().equals("entry") && at.child("resource") != null) {
                return at;
            }
        }
        return null;
    }

    private static @Nullable Element contained(String id, Element reference, Findings findings) {
        Element root = reference.root();
        if (id.isEmpty()) {
            return root;
        }
        for (Element child : root.children()) {
            if (child.name().equals("contained") && id.equals(child.childText("id"))) {
                return child;
            }
        }
        findings.error(reference, "Unable to resolve the contained resource '" + id + "'");
        return null;
    }

    /** Whether a resource fits a profile; one that is being held to it at this moment is taken to fit. */
    boolean fits(Element resource, Definition profile) {
        Map<Definition, Boolean> known = fits.computeIfAbsent(resource, key -> new HashMap<>());
        Boolean fit = known.get(profile);
        if (fit == null) {
            known.put(profile, true);
            Findings tried = new Findings();
            new Walker(profiles, tried, this).walk(resource, profile);
            fit = !tried.failed();
            known.put(profile, fit);
        }
        return fit;
    }
}
