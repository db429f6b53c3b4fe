package example.tamponade.conformance.check;

import example.tamponade.conformance.rules.Definition;
import example.tamponade.conformance.rules.Profiles;
import example.tamponade.conformance.rules.TypeRule;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Whether a reference leads to what its element takes. One that leads out of what is checked is taken as it is. */
final class ReferenceCheck {

    private static final String ANY = "http://hl7.org/fhir/StructureDefinition/Resource";

    private final Profiles profiles;
    private final Findings findings;
    private final Whole whole;

    ReferenceCheck(Profiles profiles, Findings findings, Whole whole) {
        this.profiles = profiles;
        this.findings = findings;
        this.whole = whole;
    }

    void check(Element reference, TypeRule rule, Walker walker) {
        String to = reference.childText("reference");
        if (to == null || to.isEmpty()) {
            if (reference.childText("display") == null && !identified(reference.child("identifier"))) {
                findings.warning(
                        reference, "A Reference without an actual reference or identifier should have a display");
            }
            return;
        }
        if (Primitives.hasBlank(to)) {
            findings.error(reference, "The reference '" + to + "' is not a valid reference");
        }
        Element target = whole.resolve(to, reference, findings);
        if (target == null || rule.targets().isEmpty() || rule.targets().contains(ANY)) {
            return;
        }
        List<Definition> fitting = new ArrayList<>();
        for (String url : rule.targets()) {
            Definition wanted = profiles.definition(url);
            if (wanted == null
                    ? url.endsWith("/" + target.type())
                    : wanted.type().equals(target.type())) {
                if (wanted == null || !wanted.profile()) {
                    return;
                }
                fitting.add(wanted);
            }
        }
        if (fitting.isEmpty()) {
            findings.error(
                    reference,
                    "Invalid Resource target type. Found " + target.type() + ", but expected one of (" + rule.targets()
                            + ")");
        } else if (fitting.stream().noneMatch(it -> whole.fits(target, it))) {
            findings.error(reference, "Unable to find a profile match for " + to + " among choices: " + rule.targets());
        }
    }

    private static boolean identified(@Nullable Element identifier) {
        return identifier != null && (identifier.childText("system") != null || identifier.childText("value") != null);
    }
}
