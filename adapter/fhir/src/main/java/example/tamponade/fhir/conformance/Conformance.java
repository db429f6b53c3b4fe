package example.tamponade.fhir.conformance;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.conformance.UnknownConstructException;
import example.tamponade.profiles.RecordPackage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/**
 * Holds resources to their profiles and value sets. Safe for several threads.
 *
 * <p>What this software makes is held to the compiled profiles: every rule that they and FHIR R4 have, walked once, in
 * microseconds. What comes from outside is judged by the stock validator, the reference for all of FHIR, in milliseconds;
 * it is loaded when it is first asked, which takes seconds. The tests hold the two to the same verdicts.
 */
public final class Conformance {

    private final ResourceValidator validator;

    private final @Nullable String slowerBecause;

    private Conformance(ResourceValidator validator, @Nullable String slowerBecause) {
        this.validator = validator;
        this.slowerBecause = slowerBecause;
    }

    /**
     * The compiled profiles of the published package.
     *
     * @throws UncheckedIOException when they are missing or damaged
     */
    public static Conformance compiled() {
        return Compiled.CONFORMANCE;
    }

    /** The stock validator with the published package; nothing is loaded before its first check. */
    public static Conformance stock() {
        return Stock.CONFORMANCE;
    }

    /**
     * The published package and others together, compiled; where one of them cannot be compiled the stock validator, which
     * is slower, and {@link #slowerBecause} says why.
     *
     * @param packages gzipped tar files of FHIR packages
     * @param cache a folder where the compiled profiles are kept by their digest; null: they are compiled anew
     * @throws IOException when a package is not readable, or the cache not writable
     */
    public static Conformance with(List<byte[]> packages, @Nullable Path cache) throws IOException {
        if (packages.isEmpty()) {
            return compiled();
        }
        try {
            return new Conformance(new CompiledValidator(CompiledPackages.of(packages, cache)), null);
        } catch (UnknownConstructException e) {
            FhirContext fhir = FhirContext.forR4Cached();
            return new Conformance(new StockValidator(fhir, CompiledPackages.support(fhir, packages)), e.getMessage());
        }
    }

    /** Why the stock validator judges where compiled profiles were asked for; null when it does not. */
    public @Nullable String slowerBecause() {
        return slowerBecause;
    }

    /** Checks one resource, a bundle with everything in it included. */
    public ConformanceReport check(Resource resource) {
        return report(validator.one(ResourceText.of(resource)));
    }

    /**
     * Checks resources together: what one says of another must fit. A reference to one that is not among them is no
     * problem.
     */
    public ConformanceReport check(List<? extends Resource> resources) {
        return checkTexts(resources.stream().map(ResourceText::of).toList());
    }

    /** Checks resources together, like {@link #check(List)}, from the JSON that they are kept as. */
    public ConformanceReport checkTexts(List<ResourceText> resources) {
        return report(validator.several(resources));
    }

    /**
     * Checks JSON as it was written: a resource, a bundle, or resources one a line.
     *
     * @param json what is not JSON becomes a problem with its place, never an exception
     */
    public ConformanceReport check(String json) {
        JsonText text = JsonText.read(json);
        List<Problem> problems = new ArrayList<>(text.problems());
        List<ResourceText> resources = text.resources();
        problems.addAll(resources.size() == 1 ? validator.one(resources.get(0)) : validator.several(resources));
        return report(problems);
    }

    private static ConformanceReport report(List<Problem> problems) {
        return new ConformanceReport(Consequences.without(problems));
    }

    private static final class Compiled {
        private static final Conformance CONFORMANCE = new Conformance(CompiledValidator.ofPublishedPackage(), null);
    }

    private static final class Stock {
        private static final Conformance CONFORMANCE = new Conformance(
                new StockValidator(FhirContext.forR4Cached(), RecordPackage.support(FhirContext.forR4Cached())), null);
    }
}
