package example.tamponade.fhir.conformance;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.IValidationSupport;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.SingleValidationMessage;
import example.tamponade.profiles.RecordPackage;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;
import org.hl7.fhir.r4.model.Resource;

/**
 * Holds resources to their profiles and value sets. Building it reads FHIR R4 and the package, which takes seconds: build
 * it once and keep it. Safe for several threads.
 *
 * <p>Many resources in one call cost less than half of as many calls, as the validator prepares itself for each call anew,
 * and they are spread over the processors.
 */
public final class Conformance {

    private final FhirContext fhir = FhirContext.forR4Cached();
    private final FhirValidator validator;
    private final Severities severities;

    /**
     * Reads the published package from the class path.
     *
     * @throws UncheckedIOException when the package is missing or damaged
     */
    public Conformance() {
        IValidationSupport support = RecordPackage.support(fhir);
        FhirInstanceValidator module = new FhirInstanceValidator(support);
        module.setErrorForUnknownProfiles(true);
        this.severities = Severities.with(support);
        this.validator = fhir.newValidator().registerValidatorModule(module);
    }

    /** Checks one resource, a bundle with everything in it included. */
    public ConformanceReport check(Resource resource) {
        return report(one(written(resource)));
    }

    /**
     * Checks resources together: what one says of another must fit. A reference to one that is not among them is no
     * problem.
     */
    public ConformanceReport check(List<Resource> resources) {
        return report(several(resources.stream().map(this::written).toList()));
    }

    /**
     * Checks JSON as it was written: a resource, a bundle, or resources one a line.
     *
     * @param json what is not JSON becomes a problem with its place, never an exception
     */
    public ConformanceReport check(String json) {
        JsonText text = JsonText.read(json);
        List<Problem> problems = new ArrayList<>(text.problems());
        List<Written> resources = text.resources();
        problems.addAll(resources.size() == 1 ? one(resources.get(0)) : several(resources));
        return report(problems);
    }

    private List<Problem> one(Written resource) {
        return run(resource.json(), resource.name());
    }

    private List<Problem> several(List<Written> resources) {
        return Workers.all(Written.runs(resources), it -> run(Written.bundle(it), "all together")).stream()
                .flatMap(List::stream)
                .toList();
    }

    private List<Problem> run(String json, String whole) {
        List<Problem> problems = new ArrayList<>();
        for (SingleValidationMessage message :
                validator.validateWithResult(json).getMessages()) {
            Problem.Severity severity = severities.of(message);
            if (severity != null) {
                Place place = Place.of(message.getLocationString(), whole);
                problems.add(new Problem(severity, place.resource(), place.expression(), message.getMessage()));
            }
        }
        return problems;
    }

    private static ConformanceReport report(List<Problem> problems) {
        return new ConformanceReport(Consequences.without(problems));
    }

    private Written written(Resource resource) {
        String name = resource.fhirType() + (resource.hasIdElement() ? "/" + resource.getIdPart() : "");
        return new Written(name, fhir.newJsonParser().encodeResourceToString(resource));
    }
}
