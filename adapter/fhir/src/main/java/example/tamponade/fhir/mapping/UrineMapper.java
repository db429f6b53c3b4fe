package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.Reading;
import example.tamponade.core.event.Urine;
import java.util.List;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Resource;

/** Urine collected over a time. */
final class UrineMapper {

    private UrineMapper() {}

    static List<Resource> map(Urine urine, Recorded event) {
        Quantity volume = Quantities.of(urine.volumeMl(), "mL");
        Observation observation = event.observation(Kind.EXAM, event.item("urine-output"));
        observation.setEffective(Times.period(urine.from(), urine.to()));
        observation.setValue(volume);
        String line = "Urine: " + Quantities.words(volume) + " from " + Times.words(urine.from()) + " to "
                + Times.words(urine.to());
        return List.of(event.finish(observation, Reading.URINE_OUTPUT.code(), "urine-output", line));
    }
}
