package example.tamponade.conformance.check;

import example.tamponade.conformance.rules.CodeSystemRule;
import example.tamponade.conformance.rules.Definition;
import example.tamponade.conformance.rules.Profiles;
import example.tamponade.conformance.rules.TypeRule;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Whether a reference leads to what its element takes. One that leads out of what is checked is taken as it is. */
final class ReferenceCheck {

    private static final Pattern BLANK = Pattern.compile("\\s");
    private static final String CORE = "http://hl7.org/fhir/StructureDefinition/";
    private static final String ANY = CORE + "Resource";

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
        if (BLANK.matcher(to).find()) {
            findings.error(reference, "The reference '" + to + "' is not a valid reference");
        }
        Element target = whole.resolve(to, reference, findings);
        String actual = target == null ? typeIn(to) : target.type();
        if (actual != null && actual.isEmpty()) {
            findings.error(reference, "The reference '" + to + "' names no type before its id");
        }
        String type = reference.childText("type");
        if (type != null) {
            stated(type, actual, reference, rule);
        }
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

    // What a reference says that it leads to.
    private void stated(String type, @Nullable String actual, Element reference, TypeRule rule) {
        if (!rule.targets().isEmpty() && !rule.targets().contains(ANY) && !takes(rule, type)) {
            findings.error(
                    reference,
                    "The type '" + type + "' is not a valid Target for this element (must be one of " + rule.targets()
                            + ")");
        }
        if (actual != null && !actual.equals(type)) {
            findings.error(
                    reference,
                    "Invalid Resource target type. Found " + type + ", but expected one of (" + actual + ")");
        }
    }

    private boolean takes(TypeRule rule, String type) {
        String url = type.contains(":") ? type : CORE + type;
        for (String target : rule.targets()) {
            Definition wanted = profiles.definition(target);
            if (target.equals(url) || (wanted != null && url.equals(CORE + wanted.type()))) {
                return true;
            }
        }
        return false;
    }

    // Of a reference that leads out, the type before its id: empty when nothing stands there, null when it is no type.
    private @Nullable String typeIn(String to) {
        String[] parts = to.split("/");
        int at = parts.length - 2;
        if (parts.length >= 4 && parts[at].equals("_history")) {
            at -= 2;
        }
        return at >= 0 && (parts[at].isEmpty() || isType(parts[at])) ? parts[at] : null;
    }

    private boolean isType(String name) {
        CodeSystemRule types = profiles.codeSystem("http://hl7.org/fhir/resource-types");
        return types != null && types.has(name);
    }

    private static boolean identified(@Nullable Element identifier) {
        return identifier != null && (identifier.childText("system") != null || identifier.childText("value") != null);
    }
}
