package example.tamponade.fhir;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.fhirpath.IFhirPath;
import ca.uhn.fhir.fhirpath.IFhirPathEvaluationContext;
import java.math.BigDecimal;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.instance.model.api.IBase;
import org.hl7.fhir.instance.model.api.IIdType;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.PrimitiveType;
import org.hl7.fhir.r4.model.Resource;

/** FHIRPath over the resources of a case, references followed. */
public final class FhirPaths {

    private final Bundle bundle = new Bundle();
    private final IFhirPath engine = FhirContext.forR4Cached().newFhirPath();

    public FhirPaths(List<Resource> resources) {
        Map<String, Resource> byReference = new HashMap<>();
        resources.forEach(it -> {
            bundle.addEntry().setResource(it);
            byReference.put(it.fhirType() + "/" + it.getIdPart(), it);
        });
        engine.setEvaluationContext(new IFhirPathEvaluationContext() {
            @Override
            public IBase resolveReference(IIdType reference, IBase context) {
                return byReference.get(reference.getValue());
            }
        });
    }

    /** The decimal that an expression over a bundle of all resources gives. */
    public BigDecimal decimal(String expression) {
        return decimal(bundle, expression);
    }

    /** The decimal that an expression over one resource gives. */
    public BigDecimal decimal(IBase resource, String expression) {
        return engine.evaluateFirst(resource, expression, PrimitiveType.class)
                .map(it -> new BigDecimal(it.primitiveValue()))
                .orElseThrow(() -> new AssertionError("nothing at " + expression));
    }
}
