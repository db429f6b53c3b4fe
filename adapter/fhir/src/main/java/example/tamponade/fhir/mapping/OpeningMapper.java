package example.tamponade.fhir.mapping;

import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.Mother;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** The opening of a case: the mother, her stay, her case, and what was known of her. */
final class OpeningMapper {

    static final String WEIGHT = "mother-weight";
    static final String HEIGHT = "mother-height";

    private OpeningMapper() {}

    static List<Resource> map(CaseOpened data, Recorded event) {
        List<Resource> resources = new ArrayList<>(CaseMappers.parties(event.scope));
        ConsentMapper.map(data, event).ifPresent(resources::add);
        Mother mother = data.mother();
        addMeasure(resources, WEIGHT, Loinc.BODY_WEIGHT, mother.weightKg(), "kg", event);
        addMeasure(resources, HEIGHT, Loinc.BODY_HEIGHT, mother.heightCm(), "cm", event);
        addHistory(resources, "gravida", decimal(mother.gravida()), "{count}", event);
        addHistory(resources, "para", decimal(mother.para()), "{count}", event);
        addHistory(resources, "gestation", mother.gestationWeeks(), "wk", event);
        return resources;
    }

    private static void addMeasure(
            List<Resource> resources,
            String role,
            Loinc code,
            @Nullable BigDecimal value,
            String unit,
            Recorded event) {
        if (value != null) {
            String text = code == Loinc.BODY_WEIGHT ? "Body weight" : "Body height";
            Observation observation = event.observation(Kind.VITAL_SIGNS, code.concept(event.scope.terms, text));
            resources.add(measured(observation, Quantities.of(value, unit), role, role, event));
        }
    }

    private static void addHistory(
            List<Resource> resources, String item, @Nullable BigDecimal value, String unit, Recorded event) {
        if (value != null) {
            Observation observation = event.observation(Kind.OWN, event.item(item));
            resources.add(measured(observation, Quantities.of(value, unit), item, "obstetric-history", event));
        }
    }

    private static Observation measured(
            Observation observation, Quantity value, String role, String profile, Recorded event) {
        observation.setValue(value);
        return event.finish(
                observation, role, profile, observation.getCode().getText() + ": " + Quantities.words(value));
    }

    private static @Nullable BigDecimal decimal(@Nullable Integer value) {
        return value == null ? null : BigDecimal.valueOf(value);
    }
}
