package example.tamponade.fhir.conformance;

import example.tamponade.conformance.CompiledChecker;
import example.tamponade.conformance.CompiledProfiles;
import example.tamponade.conformance.Finding;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Objects;

/** Profiles that were compiled. */
final class CompiledValidator implements ResourceValidator {

    private static final String PROFILES = "compiled-profiles.bin";

    private final CompiledChecker checker;

    /** Checks against those profiles. */
    CompiledValidator(CompiledProfiles profiles) {
        this.checker = new CompiledChecker(profiles);
    }

    /**
     * Reads the published package's from the class path, as they were compiled when this module was built.
     *
     * @throws UncheckedIOException when they are damaged
     */
    static CompiledValidator ofPublishedPackage() {
        try (InputStream compiled = CompiledValidator.class.getResourceAsStream(PROFILES)) {
            return new CompiledValidator(CompiledProfiles.read(Objects.requireNonNull(compiled, PROFILES)));
        } catch (IOException e) {
            throw new UncheckedIOException(PROFILES + " is not readable", e);
        }
    }

    @Override
    public List<Problem> one(ResourceText resource) {
        return problems(checker.check(resource.json()));
    }

    @Override
    public List<Problem> several(List<ResourceText> resources) {
        return problems(
                checker.checkTogether(resources.stream().map(ResourceText::json).toList()));
    }

    private static List<Problem> problems(List<Finding> findings) {
        return findings.stream().map(CompiledValidator::problem).toList();
    }

    private static Problem problem(Finding finding) {
        Problem.Severity severity =
                finding.severity() == Finding.Severity.ERROR ? Problem.Severity.ERROR : Problem.Severity.WARNING;
        return new Problem(severity, finding.resource(), finding.expression(), finding.message());
    }
}
