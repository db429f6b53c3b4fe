package example.tamponade.conformance;

import example.tamponade.conformance.check.Checker;
import example.tamponade.conformance.rules.Profiles;
import java.util.List;

/**
 * Checks FHIR R4 resources, as JSON text, against compiled profiles: each against the profiles that it names, or against
 * FHIR R4 itself when it names none. Safe for several threads.
 */
public final class CompiledChecker {

    private final Checker checker;

    /** Checks against those profiles. */
    public CompiledChecker(CompiledProfiles profiles) {
        this.checker = new Checker(new Profiles(profiles.content()));
    }

    /** Checks one resource; of a bundle everything in it. */
    public List<Finding> check(String json) {
        return checker.check(json);
    }

    /**
     * Checks resources together: what one says of another must fit. A reference to one that is not among them is no
     * finding.
     */
    public List<Finding> checkTogether(List<String> jsons) {
        return checker.check(jsons);
    }
}
