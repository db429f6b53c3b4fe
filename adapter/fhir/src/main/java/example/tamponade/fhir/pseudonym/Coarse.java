package example.tamponade.fhir.pseudonym;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Map;
import org.hl7.fhir.r4.model.DomainResource;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Resource;

/** Makes coarse what, exact, tells one mother from another: steps, and ends beyond which values are as one. */
final class Coarse {

    /**
     * How a value is made coarse.
     *
     * @param step the step that it is rounded to
     * @param least the least that is told
     * @param most the most that is told
     */
    record Rule(int step, int least, int most) {

        BigDecimal of(BigDecimal value) {
            BigDecimal width = BigDecimal.valueOf(step);
            BigDecimal rounded = value.divide(width, 0, RoundingMode.HALF_UP).multiply(width);
            return rounded.max(BigDecimal.valueOf(least)).min(BigDecimal.valueOf(most));
        }
    }

    // Years, kg, cm, mL and counts, by the codes of LOINC and our own. Common practice, no source.
    private static final Map<String, Rule> RULES = Map.of(
            "29463-7", new Rule(5, 40, 120),
            "8302-2", new Rule(5, 140, 185),
            "estimated-blood-volume", new Rule(500, 2500, 8000),
            "gravida", new Rule(1, 0, 5),
            "para", new Rule(1, 0, 5));

    private static final Rule AGE = new Rule(5, 15, 45);

    private Coarse() {}

    static void make(Resource resource) {
        if (resource instanceof DomainResource domain) {
            domain.getExtension().stream()
                    .filter(it -> it.getUrl().endsWith("/age-at-event") && it.getValue() instanceof Quantity)
                    .forEach(it -> make(AGE, (Quantity) it.getValue()));
        }
        if (resource instanceof Observation observation) {
            observation.getCode().getCoding().stream()
                    .map(it -> RULES.get(it.getCode()))
                    .filter(it -> it != null)
                    .limit(1)
                    .forEach(it -> make(it, observation));
        }
    }

    private static void make(Rule rule, Observation observation) {
        if (observation.hasValueQuantity()) {
            make(rule, observation.getValueQuantity());
        } else if (observation.hasValueIntegerType()) {
            observation
                    .getValueIntegerType()
                    .setValue(rule.of(BigDecimal.valueOf(
                                    observation.getValueIntegerType().getValue()))
                            .intValueExact());
        }
    }

    private static void make(Rule rule, Quantity quantity) {
        quantity.setValue(rule.of(quantity.getValue()));
    }
}
