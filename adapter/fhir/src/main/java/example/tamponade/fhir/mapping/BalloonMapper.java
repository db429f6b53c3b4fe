package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.Reading;
import example.tamponade.core.event.BalloonDrained;
import example.tamponade.core.event.BalloonFilled;
import example.tamponade.core.event.Chamber;
import example.tamponade.core.event.FillFluid;
import java.math.BigDecimal;
import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Procedure;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** Fluid put into or let out of a chamber: the step, and how much. */
final class BalloonMapper {

    private static final String STEP = "balloon-step";

    private BalloonMapper() {}

    static List<Resource> filled(BalloonFilled filled, Recorded event) {
        return map(filled.chamber(), filled.volumeMl(), filled.fluid(), "balloon-filling", "balloon-fluid-in", event);
    }

    static List<Resource> drained(BalloonDrained drained, Recorded event) {
        return map(
                drained.chamber(), drained.volumeMl(), drained.fluid(), "balloon-draining", "balloon-fluid-out", event);
    }

    private static List<Resource> map(
            Chamber chamber,
            BigDecimal volumeMl,
            @Nullable FillFluid fluid,
            String stepItem,
            String fluidItem,
            Recorded event) {
        CodeableConcept where = event.answer("chamber", chamber);
        Quantity volume = Quantities.of(volumeMl, "mL");
        Procedure step = event.procedure(event.item(stepItem));
        if (event.tamponade() != null) {
            step.addPartOf(event.tamponade());
        }
        Observation change = event.observation(Kind.PROCEDURE, event.item(fluidItem));
        change.setValue(volume).addPartOf(event.own("Procedure", STEP));
        if (event.device() != null) {
            change.setDevice(event.device());
        }
        change.addComponent().setCode(event.item("chamber")).setValue(where);
        if (fluid != null) {
            change.addComponent().setCode(event.item("fill-fluid")).setValue(event.answer("fill-fluid", fluid));
        }
        String amount = ": " + Quantities.words(volume) + ", " + where.getText();
        return List.of(
                event.finish(step, STEP, "balloon-step", step.getCode().getText() + amount),
                event.finish(
                        change,
                        Reading.BALLOON_VOLUME_CHANGE.code(),
                        "balloon-volume-change",
                        change.getCode().getText() + amount));
    }
}
