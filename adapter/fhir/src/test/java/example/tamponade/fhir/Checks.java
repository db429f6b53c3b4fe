package example.tamponade.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.hl7.fhir.r4.model.BaseDateTimeType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.DomainResource;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Type;

/** What tests ask of parts of resources. */
public final class Checks {

    private Checks() {}

    /** A UCUM quantity with that number and code. */
    public static void assertQuantity(Type value, String number, String code) {
        assertThat(value).isInstanceOf(Quantity.class);
        Quantity quantity = (Quantity) value;
        assertThat(quantity.getValue()).isEqualByComparingTo(number);
        assertThat(quantity.getSystem()).isEqualTo("http://unitsofmeasure.org");
        assertThat(quantity.getCode()).isEqualTo(code);
    }

    /** The codes of a concept in their order, each with the end of its system. */
    public static List<String> codes(CodeableConcept concept) {
        return concept.getCoding().stream()
                .map(it -> it.getSystem().substring(it.getSystem().lastIndexOf('/') + 1) + "#" + it.getCode())
                .toList();
    }

    /** The codes of an answer. */
    public static List<String> codes(Type value) {
        return codes((CodeableConcept) value);
    }

    /** The only component of an observation about that code. */
    public static Observation.ObservationComponentComponent component(Observation observation, String code) {
        List<Observation.ObservationComponentComponent> found = observation.getComponent().stream()
                .filter(it -> it.getCode().getCoding().stream()
                        .anyMatch(coding -> coding.getCode().equals(code)))
                .toList();
        assertThat(found).as(code).hasSize(1);
        return found.get(0);
    }

    /** The values of an extension of ours. */
    public static List<Type> extension(DomainResource resource, String id) {
        return resource.getExtensionsByUrl(Shared.TERMS.profile(id)).stream()
                .map(Extension::getValue)
                .toList();
    }

    /** A time equals what was written, offset included. */
    public static void assertTime(BaseDateTimeType time, String written) {
        assertThat(time.getValueAsString()).isEqualTo(written);
    }
}
