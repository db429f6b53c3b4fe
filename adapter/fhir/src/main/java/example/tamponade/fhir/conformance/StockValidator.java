package example.tamponade.fhir.conformance;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.IValidationSupport;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import ca.uhn.fhir.validation.SingleValidationMessage;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;

/**
 * The validator of the FHIR library. Many resources in one call cost less than half of as many calls, as it prepares
 * itself for each call anew; runs of them are spread over the processors.
 */
final class StockValidator implements ResourceValidator {

    private final FhirValidator validator;
    private final Severities severities;

    /** Judges by what that support has. */
    StockValidator(FhirContext fhir, IValidationSupport support) {
        FhirInstanceValidator module = new FhirInstanceValidator(support);
        module.setErrorForUnknownProfiles(true);
        this.severities = Severities.with(support);
        this.validator = fhir.newValidator().registerValidatorModule(module);
    }

    @Override
    public List<Problem> one(ResourceText resource) {
        return run(resource.json(), resource.name());
    }

    @Override
    public List<Problem> several(List<ResourceText> resources) {
        return Workers.all(Runs.of(resources), it -> run(Runs.bundle(it), "all together")).stream()
                .flatMap(List::stream)
                .toList();
    }

    // The library takes for granted how meta is built when it looks for profiles, that a type stands before the id of a
    // reference, and that what stands beside a primitive is not null.
    private List<SingleValidationMessage> messages(String json) {
        try {
            return validator.validateWithResult(json).getMessages();
        } catch (ClassCastException | UnsupportedOperationException | IllegalStateException e) {
            return unreadable("meta", e, "write it as an object and its profile as an array of addresses");
        } catch (StringIndexOutOfBoundsException e) {
            return unreadable("", e, "give each reference a type before its id, as Patient/1");
        } catch (NullPointerException e) {
            return unreadable("", e, "leave out what has no value, rather than writing null");
        }
    }

    private static List<SingleValidationMessage> unreadable(String place, RuntimeException e, String remedy) {
        SingleValidationMessage message = new SingleValidationMessage();
        message.setSeverity(ResultSeverityEnum.ERROR);
        message.setLocationString(place);
        message.setMessage(
                (place.isEmpty() ? "the resource" : place) + " cannot be read (" + e.getMessage() + "); " + remedy);
        return List.of(message);
    }

    private List<Problem> run(String json, String whole) {
        List<Problem> problems = new ArrayList<>();
        for (SingleValidationMessage message : messages(json)) {
            Problem.Severity severity = severities.of(message);
            if (severity != null) {
                Place place = Place.of(message.getLocationString(), whole);
                problems.add(new Problem(severity, place.resource(), place.expression(), message.getMessage()));
            }
        }
        return problems;
    }
}
