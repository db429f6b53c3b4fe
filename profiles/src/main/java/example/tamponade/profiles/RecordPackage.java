package example.tamponade.profiles;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import java.io.IOException;
import java.io.UncheckedIOException;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.NpmPackageValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;

/** Where the package lies on the class path, and what a HAPI validator needs to hold resources to it. */
public final class RecordPackage {

    /** The FHIR NPM package, as a class path address. */
    public static final String LOCATION = "classpath:example/tamponade/profiles/package.tgz";

    /**
     * Its terminology, forms and search parameters alone, beside this class: one JSON object with {@code canonical},
     * {@code version}, {@code resources}, and {@code profiles}, from the address of each profile to its type.
     */
    public static final String TERMS = "terms.json";

    private RecordPackage() {}

    /**
     * The package, FHIR R4 itself, and their terminology. Build it once and keep it: loading takes seconds. A coded answer
     * may carry codes of several systems; one of them in the bound value set is enough.
     *
     * @param fhir a context for FHIR R4
     */
    public static ValidationSupportChain support(FhirContext fhir) {
        NpmPackageValidationSupport ours = new NpmPackageValidationSupport(fhir);
        Forms forms;
        try {
            ours.loadPackageFromClasspath(LOCATION);
            forms = new Forms(fhir);
        } catch (IOException e) {
            throw new UncheckedIOException(LOCATION + " is not readable", e);
        }
        ValidationSupportChain chain = new ValidationSupportChain(
                ours,
                forms,
                new DefaultProfileValidationSupport(fhir),
                new InMemoryTerminologyServerValidationSupport(fhir),
                new CommonCodeSystemsTerminologyService(fhir));
        chain.setCodeableConceptValidationSuccessfulIfNotAllCodingsAreValid(true);
        return chain;
    }
}
