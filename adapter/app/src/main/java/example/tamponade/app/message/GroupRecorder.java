package example.tamponade.app.message;

import ca.uhn.hl7v2.model.v251.datatype.EI;
import ca.uhn.hl7v2.model.v251.datatype.XCN;
import ca.uhn.hl7v2.model.v251.segment.OBX;
import example.tamponade.app.intake.ReasonCode;

/**
 * States who recorded a group: the responsible observer (OBX-16) with the role in XCN.7 (table 0360 is the site's own), or
 * else the device (OBX-18), which is a monitor.
 */
final class GroupRecorder {

    private static final int ROLE = 7;

    private final ObservationGroup group;

    GroupRecorder(ObservationGroup group) {
        this.group = group;
    }

    void state(EventStatement event) {
        String first = "";
        for (ObservationGroup.Observation it : group.observations()) {
            String id = observer(it.obx());
            if (first.isEmpty() && !id.isEmpty()) {
                first = id;
                event.state("/recordedBy/id", id, it.place().field(16));
                role(it, event);
                event.state("/source", "message", it.place());
            } else if (!id.isEmpty() && !id.equals(first)) {
                event.refuse(
                        ReasonCode.INVALID_VALUE,
                        "the group has several responsible observers",
                        "send what another one observed under an OBR of its own",
                        it.place().field(16));
            }
        }
        if (first.isEmpty()) {
            device(event);
        }
    }

    private static void role(ObservationGroup.Observation of, EventStatement event) {
        String role = Fields.component(of.obx().getResponsibleObserver(0), ROLE);
        if (role.isEmpty()) {
            event.refuse(
                    "/recordedBy/role",
                    "",
                    ReasonCode.MISSING_PROPERTY,
                    "nothing says in what role the observer wrote",
                    "write the role in component 7 of OBX-16, for example midwife",
                    of.place().field(16));
        } else {
            event.state("/recordedBy/role", role, of.place().field(16));
        }
    }

    private void device(EventStatement event) {
        group.observations().stream()
                .filter(it -> !device(it.obx()).isEmpty())
                .findFirst()
                .ifPresentOrElse(
                        it -> {
                            event.state(
                                    "/recordedBy/id",
                                    device(it.obx()),
                                    it.place().field(18));
                            event.state(
                                    "/recordedBy/role", "monitor", it.place().field(18));
                            event.state("/source", "monitor", it.place().field(18));
                        },
                        () -> event.refuse(
                                "/recordedBy",
                                "",
                                ReasonCode.MISSING_PROPERTY,
                                "nothing says who observed this",
                                "write the observer in OBX-16 with the role in component 7, or the device in OBX-18",
                                group.place()));
    }

    private static String observer(OBX obx) {
        XCN[] observers = obx.getResponsibleObserver();
        return observers.length == 0 ? "" : Fields.component(observers[0], 1);
    }

    private static String device(OBX obx) {
        EI[] devices = obx.getEquipmentInstanceIdentifier();
        return devices.length == 0 ? "" : Fields.component(devices[0], 1);
    }
}
