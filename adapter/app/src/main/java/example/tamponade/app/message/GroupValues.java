package example.tamponade.app.message;

import ca.uhn.hl7v2.model.v251.segment.OBX;
import example.tamponade.app.intake.EventProperties;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.intake.ValueKind;
import java.util.List;
import java.util.Set;

/** States the values of one group's observations: type, repetitions, unit and status of each OBX. */
final class GroupValues {

    private static final Set<String> PRESSURES = Set.of("/data/systolic", "/data/diastolic");

    private final ObservationCodes codes;
    private final MessageTimes times;
    private final EventStatement event;
    private final List<Remark> remarks;
    private final ObjectLists lists = new ObjectLists();

    /**
     * States the values of a group.
     *
     * @param remarks takes what is passed over
     */
    GroupValues(ObservationCodes codes, MessageTimes times, EventStatement event, List<Remark> remarks) {
        this.codes = codes;
        this.times = times;
        this.event = event;
        this.remarks = remarks;
    }

    void state(ObservationGroup.Observation of, ObservationCodes.Property property) {
        ResultStatus status = ResultStatus.ofObservation(Fields.text(of.obx().getObservationResultStatus()));
        if (status == ResultStatus.WITHDRAWN) {
            return;
        }
        if (status == ResultStatus.NOT_OBTAINED) {
            notObtained(of, property);
            return;
        }
        if (property.analyte() != null && !event.states("/data/analyte")) {
            event.state("/data/analyte", property.analyte(), of.place().field(3));
        }
        values(of, property);
    }

    /** Refuses lists of objects that do not tell which value belongs to which object. */
    void complete() {
        lists.refuseUneven(event);
    }

    private void values(ObservationGroup.Observation of, ObservationCodes.Property property) {
        OBX obx = of.obx();
        MessagePlace place = of.place().field(5);
        String type = Fields.text(obx.getValueType());
        if (!ObservationValue.isReadable(type)) {
            event.refuse(
                    property.path(),
                    "",
                    ReasonCode.WRONG_TYPE,
                    "a value of the type '" + Texts.shortened(type) + "' is not read",
                    "send it as one of " + ObservationValue.readable() + " in OBX-2",
                    of.place().field(2));
            return;
        }
        if (obx.getObservationValueReps() == 0) {
            noValue(property, place);
        }
        for (int i = 0; i < obx.getObservationValueReps(); i++) {
            lists.add(
                    property, Fields.text(obx.getObservationSubID()), of.place().field(4));
            value(
                    of,
                    property,
                    ObservationValue.of(type, obx.getObservationValue(i).getData()));
        }
    }

    private void value(ObservationGroup.Observation of, ObservationCodes.Property property, ObservationValue value) {
        MessagePlace place = of.place().field(5);
        boolean list = property.path().equals(EventProperties.list(property.type(), property.path()));
        if (value.refusal() != null) {
            event.refuse(property.path(), value.text(), value.refusal(), place);
        } else if (value.none() && list) {
            event.stateEmptyList(property.path(), place);
        } else if (value.text().isEmpty()) {
            noValue(property, place);
        } else {
            value(of, property, value.text());
        }
    }

    private void noValue(ObservationCodes.Property property, MessagePlace place) {
        event.refuse(
                property.path(),
                "",
                ReasonCode.MISSING_PROPERTY,
                "there is no value",
                "write it in OBX-5; when it was sought and could not be obtained, send the status X in OBX-11",
                place);
    }

    private void value(ObservationGroup.Observation of, ObservationCodes.Property property, String text) {
        MessagePlace place = of.place().field(5);
        ValueKind kind = EventProperties.kind(property.type(), property.path());
        if (kind == ValueKind.TIME || kind == ValueKind.DATE) {
            event.state(property.path(), kind == ValueKind.TIME ? times.time(text) : MessageTimes.date(text), place);
            return;
        }
        String unit = ObservationUnits.ucum(of.obx().getUnits());
        MessagePlace unitPlace = of.place().field(6);
        if (unit == null) {
            wrongUnit(property, text, "the unit is not in UCUM", unitPlace);
        } else if (unit.isEmpty() && kind == ValueKind.AMOUNT) {
            wrongUnit(property, text, "the number has no unit", unitPlace);
        } else if (kind == ValueKind.NUMBER && codes.hasUnitProperty(property.type())) {
            event.state(property.path(), text, place);
            if (!unit.isEmpty()) {
                event.state("/data/unit", unit, unitPlace);
            }
        } else {
            event.state(property.path(), text, unit, place);
        }
    }

    private void wrongUnit(ObservationCodes.Property property, String text, String wrong, MessagePlace place) {
        event.refuse(
                property.path(),
                text,
                ReasonCode.WRONG_UNIT,
                wrong,
                "write the UCUM unit in OBX-6.1, for example mL or mm[Hg], and UCUM in OBX-6.3",
                place);
    }

    private void notObtained(ObservationGroup.Observation of, ObservationCodes.Property property) {
        if (!PRESSURES.contains(property.path())) {
            remarks.add(new Remark(
                    of.place().field(11),
                    "what could not be obtained (X) is recorded for blood pressures only; this one is passed over"));
        } else if (!event.states("/data/pressureUnrecordable")) {
            event.state("/data/pressureUnrecordable", "true", of.place().field(11));
        }
    }
}
