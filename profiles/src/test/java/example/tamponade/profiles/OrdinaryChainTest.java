package example.tamponade.profiles;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.NpmPackageValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.SnapshotGeneratingValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.ResourceLock;

/**
 * A receiver that checks with the package in the ordinary way takes what we write: the support chain of the HAPI FHIR
 * documentation, "Validation Support Modules", with nothing of ours but the package.
 */
@ResourceLock(Published.DEFINITIONS)
class OrdinaryChainTest {

    private static final FhirValidator ORDINARY = ordinary();

    @Test
    void everyExampleIsTaken() {
        assertThat(Published.examples().flatMap(it -> errors(it).stream())).isEmpty();
    }

    private static List<String> errors(ObjectNode resource) {
        return ORDINARY.validateWithResult(resource.toString()).getMessages().stream()
                .filter(it -> it.getSeverity().ordinal() >= ResultSeverityEnum.ERROR.ordinal())
                .map(it -> Published.text(resource, "id") + " " + it.getLocationString() + ": " + it.getMessage())
                .toList();
    }

    private static FhirValidator ordinary() {
        NpmPackageValidationSupport published = new NpmPackageValidationSupport(Published.FHIR);
        try {
            published.loadPackageFromClasspath(RecordPackage.LOCATION);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        ValidationSupportChain chain = new ValidationSupportChain(
                published,
                new DefaultProfileValidationSupport(Published.FHIR),
                new CommonCodeSystemsTerminologyService(Published.FHIR),
                new InMemoryTerminologyServerValidationSupport(Published.FHIR),
                new SnapshotGeneratingValidationSupport(Published.FHIR));
        return Published.FHIR.newValidator().registerValidatorModule(new FhirInstanceValidator(chain));
    }
}
