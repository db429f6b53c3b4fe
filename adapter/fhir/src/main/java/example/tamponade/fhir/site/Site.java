package example.tamponade.fhir.site;

import example.tamponade.fhir.conformance.Conformance;
import example.tamponade.fhir.conformance.Problem;
import example.tamponade.fhir.terms.Terms;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.CanonicalType;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/**
 * Writes resources as a site wants them, and holds them to its packages. What the site's profile refuses goes without that
 * profile, and is said: a mother is not kept from the record because a number is missing.
 */
public final class Site {

    private final @Nullable SiteResources resources;
    private final Adaptation adaptation;
    private final Conformance conformance;
    private final Consumer<SiteProblem> problems;

    private Site(
            @Nullable SiteResources resources,
            Adaptation adaptation,
            Conformance conformance,
            Consumer<SiteProblem> problems) {
        this.resources = resources;
        this.adaptation = adaptation;
        this.conformance = conformance;
        this.problems = problems;
    }

    /** No site adds anything. */
    public static Site none() {
        return new Site(null, Adaptation.NONE, Conformance.compiled(), problem -> {});
    }

    /**
     * Reads what a site adds.
     *
     * @param packages its FHIR packages
     * @param file its adaptation file; null: it adds nothing
     * @param cache a folder where what takes seconds to make of the packages is kept; null: it is made anew
     * @param problems is told what the packages refuse
     * @throws UnusableAdaptationException when a file cannot be used, with every problem and its place
     * @throws IOException when a file is not readable
     */
    public static Site read(
            List<Path> packages, @Nullable Path file, @Nullable Path cache, Terms terms, Consumer<SiteProblem> problems)
            throws IOException {
        SitePackages site = SitePackages.read(packages);
        Adaptation adaptation = file == null
                ? Adaptation.NONE
                : AdaptationReader.read(
                        Objects.requireNonNull(file.getFileName()).toString(),
                        Files.readString(file),
                        site,
                        terms.profiles());
        Conformance conformance = site.conformance(cache);
        return new Site(new SiteResources(adaptation, site, terms.base()), adaptation, conformance, problems);
    }

    /** Holds resources to the published package and to the site's. */
    public Conformance conformance() {
        return conformance;
    }

    /** The resource as the site wants it; doing so again changes nothing. */
    public Resource adapted(Resource resource) {
        Resource adapted = resources == null ? resource : resources.adapted(resource);
        if (adapted == resource || conformance.check(adapted).passed()) {
            return adapted;
        }
        for (String profile : claims(adapted)) {
            Resource alone = with(Set.of(profile), adapted);
            List<Problem> errors = conformance.check(alone).errors();
            if (!errors.isEmpty()) {
                errors.forEach(it -> say(profile, it, resource));
                adapted.getMeta().getProfile().removeIf(it -> it.getValue().equals(profile));
            }
        }
        List<Problem> left = conformance.check(adapted).errors();
        left.forEach(it -> say("", it, resource));
        return left.isEmpty() ? adapted : resource;
    }

    private Resource with(Set<String> profiles, Resource adapted) {
        Resource copy = adapted.copy();
        Set<String> all = claims(adapted);
        copy.getMeta().getProfile().removeIf(it -> all.contains(it.getValue()) && !profiles.contains(it.getValue()));
        return copy;
    }

    private Set<String> claims(Resource resource) {
        Set<String> ofSite =
                adaptation.claims().stream().map(Adaptation.Claim::profile).collect(Collectors.toSet());
        return resource.getMeta().getProfile().stream()
                .map(CanonicalType::getValue)
                .filter(ofSite::contains)
                .collect(Collectors.toSet());
    }

    private void say(String profile, Problem problem, Resource resource) {
        String name = resource.fhirType() + "/" + resource.getIdPart();
        String element = element(resource.fhirType(), problem);
        problems.accept(new SiteProblem(name, profile, element, problem.message(), place(profile, element)));
    }

    // What is missing is named by the message alone; its place is what it is missing from.
    private static String element(String type, Problem problem) {
        Matcher named = Pattern.compile("\\b" + type + "\\.[A-Za-z.:\\[\\]]*[A-Za-z\\]]")
                .matcher(problem.message());
        return named.find() ? named.group() : problem.expression();
    }

    // The rules that touch the element; where none does, the one that claims the profile.
    private String place(String profile, String element) {
        List<String> lines = new ArrayList<>();
        if (element.contains("identifier")) {
            adaptation.systems().forEach(it -> lines.add("line " + it.line()));
            adaptation.facilities().forEach(it -> lines.add("line " + it.line()));
        }
        if (element.contains("extension")) {
            adaptation.extensions().forEach(it -> lines.add("line " + it.line()));
        }
        adaptation.claims().stream()
                .filter(it -> it.profile().equals(profile))
                .forEach(it -> lines.add("line " + it.line() + ", which claims the profile"));
        return "see " + String.join(", ", lines) + " of " + adaptation.file()
                + ", and add there what is missing or claim the profile no more";
    }
}
