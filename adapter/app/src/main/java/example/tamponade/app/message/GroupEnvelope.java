package example.tamponade.app.message;

import ca.uhn.hl7v2.model.v251.datatype.CX;
import ca.uhn.hl7v2.model.v251.segment.OBR;
import example.tamponade.app.intake.EventIds;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.core.event.EventType;
import java.util.Arrays;

/** States who, where, when and which: everything of an event but its data. */
final class GroupEnvelope {

    private final MessageHeader header;
    private final MessageTimes times;

    GroupEnvelope(MessageHeader header, MessageTimes times) {
        this.header = header;
        this.times = times;
    }

    void state(ObservationGroup group, String type, GroupStatus status, EventStatement event) {
        identity(group, status, event);
        event.state("/facilityId", header.facility(), MessagePlace.HEADER.field(4));
        if (!type.equals(EventType.READINESS_CHECKED.code())) {
            caseId(group, event);
        }
        occurredAt(group, event);
        recordedAt(group.obr(), group.place(), event);
        new GroupRecorder(group).state(event);
    }

    private void identity(ObservationGroup group, GroupStatus status, EventStatement event) {
        String filler = filler(group.obr());
        MessagePlace place = group.place().field(3);
        String ofEntry = filler.isEmpty() ? "" : id("filler", filler);
        String ofMessage = id("message", header.controlId(), Integer.toString(group.number()));
        if (status == GroupStatus.NEW) {
            event.state("/eventId", filler.isEmpty() ? ofMessage : ofEntry, place);
            return;
        }
        event.state("/eventId", ofMessage, MessagePlace.HEADER.field(10));
        String path = status == GroupStatus.WITHDRAWAL ? "/retracts" : "/corrects";
        if (filler.isEmpty()) {
            event.refuse(
                    path,
                    "",
                    ReasonCode.MISSING_PROPERTY,
                    "nothing says which entry this changes",
                    "write in OBR-3 the filler order number that the entry was first sent with",
                    place);
        } else {
            event.state(path, ofEntry, place);
        }
    }

    private String id(String... names) {
        String[] all = new String[names.length + 2];
        all[0] = header.application();
        all[1] = header.facility();
        System.arraycopy(names, 0, all, 2, names.length);
        return EventIds.of(InputFormat.MESSAGE, all).toString();
    }

    // The number with the namespace of who gave it.
    private static String filler(OBR obr) {
        String number = Fields.component(obr.getFillerOrderNumber(), 1);
        String namespace = Fields.component(obr.getFillerOrderNumber(), 2);
        return number.isEmpty() || namespace.isEmpty() ? number : number + "^" + namespace;
    }

    private static void caseId(ObservationGroup group, EventStatement event) {
        String visit = Fields.component(group.pv1().getVisitNumber(), 1);
        if (!visit.isEmpty()) {
            event.state("/caseId", visit, MessagePlace.of("PV1", 1).field(19));
            caseFacility(group.pv1().getVisitNumber(), MessagePlace.of("PV1", 1).field(19), event);
            return;
        }
        Arrays.stream(group.pid().getPatientIdentifierList())
                .filter(it -> Fields.text(it.getIdentifierTypeCode()).equals("VN"))
                .findFirst()
                .ifPresentOrElse(
                        it -> {
                            MessagePlace place = MessagePlace.of("PID", 1).field(3);
                            event.state("/caseId", Fields.text(it.getIDNumber()), place);
                            caseFacility(it, place, event);
                        },
                        () -> event.refuse(
                                "/caseId",
                                "",
                                ReasonCode.MISSING_PROPERTY,
                                "no visit number says to which case this belongs",
                                "write the case in PV1-19, or in PID-3 with the type VN",
                                MessagePlace.of("PV1", 1).field(19)));
    }

    // The authority that assigned the number is the facility whose number it is.
    private static void caseFacility(CX number, MessagePlace place, EventStatement event) {
        String authority = Fields.component(number, 4);
        if (!authority.isEmpty()) {
            event.state("/caseFacility", authority, place);
        }
    }

    private void occurredAt(ObservationGroup group, EventStatement event) {
        String first = "";
        for (ObservationGroup.Observation it : group.observations()) {
            String written = Fields.component(it.obx().getDateTimeOfTheObservation(), 1);
            MessagePlace place = it.place().field(14);
            if (first.isEmpty() && !written.isEmpty()) {
                first = written;
                event.state("/occurredAt", times.time(written), place);
            } else if (!written.isEmpty() && !written.equals(first)) {
                event.refuse(
                        ReasonCode.INVALID_VALUE,
                        "the group has observations of different times",
                        "send what was observed at another time under an OBR of its own",
                        place);
            }
        }
        String ordered = Fields.component(group.obr().getObservationDateTime(), 1);
        if (first.isEmpty() && !ordered.isEmpty()) {
            event.state("/occurredAt", times.time(ordered), group.place().field(7));
        }
    }

    private void recordedAt(OBR obr, MessagePlace place, EventStatement event) {
        String reported = Fields.component(obr.getResultsRptStatusChngDateTime(), 1);
        if (!reported.isEmpty()) {
            event.state("/recordedAt", times.time(reported), place.field(22));
        } else if (!header.time().isEmpty()) {
            event.state("/recordedAt", times.time(header.time()), MessagePlace.HEADER.field(7));
        }
    }
}
