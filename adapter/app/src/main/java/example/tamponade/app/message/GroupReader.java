package example.tamponade.app.message;

import ca.uhn.hl7v2.model.v251.datatype.CE;
import example.tamponade.app.intake.EventAssembly;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.ReasonCode;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** Reads one group of a message as an event. */
final class GroupReader {

    private final ObservationCodes codes;
    private final EventAssembly assembly;
    private final MessageTimes times;
    private final GroupEnvelope envelope;

    GroupReader(ObservationCodes codes, EventAssembly assembly, MessageHeader header, MessageTimes times) {
        this.codes = codes;
        this.assembly = assembly;
        this.times = times;
        this.envelope = new GroupEnvelope(header, times);
    }

    /**
     * Reads it.
     *
     * @param original the message that it came in
     * @param remarks takes what is passed over, though the event is taken
     */
    Intake read(ObservationGroup group, Original original, List<Remark> remarks) {
        EventStatement event = new EventStatement(group.place());
        group.refusals().forEach(event::refuse);
        Map<ObservationGroup.Observation, ObservationCodes.@Nullable Property> properties = new LinkedHashMap<>();
        group.observations().forEach(it -> properties.put(it, property(it)));
        GroupStatus status = GroupStatus.of(group, event);
        String type = type(group, properties, event);
        envelope.state(group, type, status, event);
        if (status != GroupStatus.WITHDRAWAL) {
            data(group, type, properties, event, remarks);
        }
        return event.read(assembly, original);
    }

    private void data(
            ObservationGroup group,
            String type,
            Map<ObservationGroup.Observation, ObservationCodes.@Nullable Property> properties,
            EventStatement event,
            List<Remark> remarks) {
        if (!type.isEmpty()) {
            event.state("/type", type, group.place().field(4));
        }
        GroupValues values = new GroupValues(codes, times, event, remarks);
        properties.forEach((it, property) -> {
            if (property == null || !(type.isEmpty() || property.type().equals(type))) {
                notOfEvent(it, type, event);
            } else if (!type.isEmpty()) {
                values.state(it, property);
            }
        });
        values.complete();
    }

    private void notOfEvent(ObservationGroup.Observation of, String type, EventStatement event) {
        CE identifier = of.obx().getObservationIdentifier();
        event.refuse(
                ReasonCode.UNKNOWN_PROPERTY,
                "'" + Texts.shortened(Fields.component(identifier, 1)) + "' ("
                        + Texts.shortened(Fields.component(identifier, 3)) + ") says nothing that "
                        + (type.isEmpty() ? "an event" : "an event of the type " + type) + " holds",
                "send " + codes.known(type.isEmpty() ? null : type),
                of.place().field(3));
    }

    private ObservationCodes.@Nullable Property property(ObservationGroup.Observation of) {
        CE identifier = of.obx().getObservationIdentifier();
        ObservationCodes.Property first =
                codes.property(Fields.component(identifier, 1), Fields.component(identifier, 3));
        return first == null ? codes.property(Fields.component(identifier, 4), Fields.component(identifier, 6)) : first;
    }

    // The service says the type when it is one of ours; a monitor's own panel is known by what it measures.
    private String type(
            ObservationGroup group,
            Map<ObservationGroup.Observation, ObservationCodes.@Nullable Property> properties,
            EventStatement event) {
        CE service = group.obr().getUniversalServiceIdentifier();
        String code = Fields.component(service, 1);
        String system = Fields.component(service, 3);
        if (codes.isType(code, system)) {
            return code;
        }
        Set<String> types = new TreeSet<>();
        properties.values().forEach(it -> {
            if (it != null) {
                types.add(it.type());
            }
        });
        boolean ours = system.equals(ObservationCodes.OURS);
        if (!ours && types.size() == 1) {
            return types.iterator().next();
        }
        event.refuse(
                "/type",
                code,
                ReasonCode.UNKNOWN_TYPE,
                "neither OBR-4 nor the observations tell one type of event",
                "write in OBR-4 one of " + codes.knownTypes() + " (" + ObservationCodes.OURS + ")",
                group.place().field(4));
        return "";
    }
}
