package example.tamponade.profiles;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.IValidationSupport;
import java.io.IOException;
import java.io.InputStream;
import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.hl7.fhir.r4.model.Questionnaire;
import org.hl7.fhir.utilities.npm.NpmPackage;
import org.jspecify.annotations.Nullable;

/** Hands the package's questionnaires to the validator, which the library's own support for packages leaves out. */
final class Forms implements IValidationSupport {

    private final FhirContext fhir;
    private final Map<String, Questionnaire> byAddress = new HashMap<>();

    Forms(FhirContext fhir) throws IOException {
        this.fhir = fhir;
        try (InputStream in = Forms.class.getResourceAsStream(RecordPackage.LOCATION.replace("classpath:", "/"))) {
            NpmPackage npm = NpmPackage.fromPackage(Objects.requireNonNull(in));
            for (String file : npm.listResources("Questionnaire")) {
                Questionnaire form = fhir.newJsonParser().parseResource(Questionnaire.class, npm.loadResource(file));
                byAddress.put(form.getUrl(), form);
                byAddress.put(form.getUrl() + "|" + form.getVersion(), form);
            }
        }
    }

    @Override
    public FhirContext getFhirContext() {
        return fhir;
    }

    @Override
    public <T extends IBaseResource> @Nullable T fetchResource(@Nullable Class<T> type, String address) {
        Questionnaire form = byAddress.get(address);
        return type != null && type.isInstance(form) ? type.cast(form) : null;
    }
}
