package example.tamponade.conformance.check;

import example.tamponade.conformance.rules.Definition;
import example.tamponade.conformance.rules.Profiles;
import java.util.ArrayList;
import java.util.List;

/** Holds a resource, and the resources in it, to the profiles that each names. */
final class ResourceCheck {

    private final Profiles profiles;
    private final Findings findings;
    private final Whole whole;

    ResourceCheck(Profiles profiles, Findings findings, Whole whole) {
        this.profiles = profiles;
        this.findings = findings;
        this.whole = whole;
    }

    void check(Element resource) {
        BundleCheck bundle = resource.type().equals("Bundle") ? new BundleCheck(resource, whole, findings) : null;
        if (bundle != null) {
            bundle.addAddresses();
        }
        for (Definition profile : profilesOf(resource)) {
            new Walker(profiles, findings, whole).walk(resource, profile);
        }
        new ContainedCheck(findings).check(resource);
        BestPractice.check(resource, findings);
        if (bundle != null) {
            bundle.check();
        }
        inner(resource);
    }

    private void inner(Element element) {
        for (Element child : element.children()) {
            if (child.isResource()) {
                check(child);
            } else if (child.type().equals("BackboneElement")) {
                inner(child);
            }
        }
    }

    // A snapshot has every rule of what it is derived from, so that the type is walked only when no profile is.
    private List<Definition> profilesOf(Element resource) {
        List<Definition> named = new ArrayList<>();
        Element meta = resource.child("meta");
        if (meta != null) {
            for (Element profile : meta.children()) {
                if (profile.name().equals("profile") && profile.text() != null) {
                    add(named, profile, profile.text(), resource);
                }
            }
        }
        Definition base = profiles.type(resource.type());
        if (named.isEmpty() && base != null) {
            named.add(base);
        }
        return named;
    }

    private void add(List<Definition> named, Element at, String canonical, Element resource) {
        int bar = canonical.indexOf('|');
        Definition profile = profiles.definition(bar < 0 ? canonical : canonical.substring(0, bar));
        if (profile == null || (bar >= 0 && !profile.version().equals(canonical.substring(bar + 1)))) {
            findings.error(
                    at, "Profile reference '" + canonical + "' has not been checked because it could not be found");
        } else if (!profile.type().equals(resource.type())) {
            findings.error(
                    resource,
                    "Specified profile type was '" + profile.type() + "' in profile '" + profile.url()
                            + "', but found type '" + resource.type() + "'");
        } else {
            named.add(profile);
        }
    }
}
