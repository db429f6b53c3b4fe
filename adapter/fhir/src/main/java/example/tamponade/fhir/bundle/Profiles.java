package example.tamponade.fhir.bundle;

import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.Condition;
import org.hl7.fhir.r4.model.DomainResource;
import org.hl7.fhir.r4.model.Property;
import org.hl7.fhir.r4.model.Resource;

/** What a resource of ours says of itself. */
final class Profiles {

    private static final String ENTERED_IN_ERROR = "entered-in-error";

    private Profiles() {}

    /** The id of the profile that it claims, for example {@code shock-index}. */
    static String of(Resource resource) {
        String profile = resource.getMeta().getProfile().get(0).getValue();
        return profile.substring(profile.lastIndexOf('/') + 1);
    }

    static boolean isEnteredInError(Resource resource) {
        if (resource instanceof Condition condition) {
            return condition
                    .getVerificationStatus()
                    .getCodingFirstRep()
                    .getCode()
                    .equals(ENTERED_IN_ERROR);
        }
        Property status = resource.getNamedProperty("status");
        return status != null
                && status.getValues().stream().map(Base::primitiveValue).anyMatch(ENTERED_IN_ERROR::equals);
    }

    /** The infusion line that it is about; empty when it is about none. */
    static String lineOf(Resource resource) {
        return resource instanceof DomainResource domain
                ? domain.getExtension().stream()
                        .filter(it -> it.getUrl().endsWith("/infusion-line"))
                        .map(it -> it.getValue().primitiveValue())
                        .findFirst()
                        .orElse("")
                : "";
    }
}
