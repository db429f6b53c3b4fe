package example.tamponade.app.message;

import ca.uhn.hl7v2.model.v251.segment.OBR;
import ca.uhn.hl7v2.model.v251.segment.OBX;
import ca.uhn.hl7v2.model.v251.segment.PID;
import ca.uhn.hl7v2.model.v251.segment.PV1;
import example.tamponade.app.intake.Reason;
import java.util.List;

/**
 * An OBR with what belongs to it: one event-to-be.
 *
 * @param number which OBR of the message, from 1
 * @param pid the patient; empty when the message has none
 * @param pv1 the visit; empty when the message has none
 * @param observations the OBX segments; grows while the message is read
 * @param refusals what cannot be read of it
 */
record ObservationGroup(int number, OBR obr, PID pid, PV1 pv1, List<Observation> observations, List<Reason> refusals) {

    /**
     * An OBX.
     *
     * @param place where it stands
     */
    record Observation(MessagePlace place, OBX obx) {}

    MessagePlace place() {
        return MessagePlace.order(number);
    }
}
