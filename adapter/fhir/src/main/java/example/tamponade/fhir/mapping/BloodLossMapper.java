package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.Reading;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.NetBloodLoss;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.util.List;
import java.util.Objects;
import org.hl7.fhir.r4.model.BooleanType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.StringType;
import org.hl7.fhir.r4.model.Type;
import org.jspecify.annotations.Nullable;

/** A reading of blood loss: the blood in it as its value, what was read as components. */
final class BloodLossMapper {

    private BloodLossMapper() {}

    static List<Resource> map(BloodLoss loss, Recorded event) {
        CodeableConcept method = event.answer("loss-method", loss.method());
        CodeableConcept reading = event.answer("loss-reading", loss.reading());
        Quantity net = Quantities.of(net(loss, event.scope.file.protocol()).rounded(), "mL");
        Observation observation = event.observation(Kind.EXAM, event.item("blood-loss"));
        observation.setValue(net).setMethod(method);
        add(observation, "loss-reading", reading, event);
        add(observation, "blood-loss-volume-read", quantity(loss.volumeMl(), "mL"), event);
        add(observation, "blood-loss-wet-weight", quantity(loss.wetG(), "g"), event);
        add(observation, "blood-loss-dry-weight", quantity(loss.dryG(), "g"), event);
        add(observation, "blood-loss-other-fluid", quantity(loss.otherFluidMl(), "mL"), event);
        add(observation, "collector", loss.collector() == null ? null : new StringType(loss.collector()), event);
        add(observation, "collector-emptied", loss.emptied() == null ? null : new BooleanType(loss.emptied()), event);
        String line = "Blood loss: " + Quantities.words(net) + ", " + reading.getText() + ", " + method.getText()
                + (loss.collector() == null ? "" : ", " + loss.collector());
        return List.of(event.finish(observation, Reading.BLOOD_LOSS.code(), "blood-loss", line));
    }

    private static FactValue.Amount net(BloodLoss loss, CareProtocol protocol) {
        BigDecimal otherMl = Objects.requireNonNullElse(loss.otherFluidMl(), BigDecimal.ZERO);
        if (loss.volumeMl() != null) {
            return NetBloodLoss.ofVolume(loss.volumeMl(), otherMl);
        }
        return NetBloodLoss.ofWeight(
                Objects.requireNonNull(loss.wetG()),
                Objects.requireNonNull(loss.dryG()),
                protocol.value(Setting.BLOOD_DENSITY),
                otherMl);
    }

    private static @Nullable Quantity quantity(@Nullable BigDecimal value, String unit) {
        return value == null ? null : Quantities.of(value, unit);
    }

    private static void add(Observation observation, String item, @Nullable Type value, Recorded event) {
        if (value != null) {
            observation.addComponent().setCode(event.item(item)).setValue(value);
        }
    }
}
