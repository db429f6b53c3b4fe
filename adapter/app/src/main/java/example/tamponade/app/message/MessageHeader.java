package example.tamponade.app.message;

import ca.uhn.hl7v2.model.v251.segment.MSH;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import java.util.ArrayList;
import java.util.List;

/**
 * What a message says of itself.
 *
 * @param application who sends it, the program (MSH-3.1)
 * @param facility who sends it, the facility (MSH-4.1)
 * @param receivingApplication to which program (MSH-5.1)
 * @param receivingFacility to which facility (MSH-6.1)
 * @param time when it was made, as it is written (MSH-7)
 * @param code which message (MSH-9.1)
 * @param trigger for which event it was sent (MSH-9.2)
 * @param controlId the sender's own number for it (MSH-10)
 * @param processing for what it is meant (MSH-11.1)
 * @param version of HL7 (MSH-12.1)
 */
record MessageHeader(
        String application,
        String facility,
        String receivingApplication,
        String receivingFacility,
        String time,
        String code,
        String trigger,
        String controlId,
        String processing,
        String version) {

    /** Of a message whose header cannot be read. */
    static final MessageHeader NONE = new MessageHeader("", "", "", "", "", "", "", "", "", "");

    static MessageHeader of(MSH msh) {
        return new MessageHeader(
                Fields.component(msh.getSendingApplication(), 1),
                Fields.component(msh.getSendingFacility(), 1),
                Fields.component(msh.getReceivingApplication(), 1),
                Fields.component(msh.getReceivingFacility(), 1),
                Fields.component(msh.getDateTimeOfMessage(), 1),
                Fields.component(msh.getMessageType(), 1),
                Fields.component(msh.getMessageType(), 2),
                Fields.text(msh.getMessageControlID()),
                Fields.component(msh.getProcessingID(), 1),
                Fields.component(msh.getVersionID(), 1));
    }

    /** Why such a message cannot be taken at all (HL7 2.5.1, 2.9.2.1); empty when it can. */
    List<Reason> refusals() {
        List<Reason> refusals = new ArrayList<>();
        MessagePlace type = MessagePlace.HEADER.field(9);
        if (!code.equals("ORU")) {
            refusals.add(notSupported(code, "ORU, event R01", type.component(1)));
        } else if (!trigger.equals("R01")) {
            refusals.add(notSupported(trigger, "ORU, event R01", type.component(2)));
        }
        if (!processing.equals("P")) {
            refusals.add(notSupported(
                    processing, "P; what is for training or testing is not recorded", MessagePlace.HEADER.field(11)));
        }
        if (!version.equals(Hl7Parser.VERSION)) {
            refusals.add(notSupported(version, Hl7Parser.VERSION, MessagePlace.HEADER.field(12)));
        }
        if (controlId.isEmpty()) {
            refusals.add(missing("control id", 10));
        }
        if (facility.isEmpty()) {
            refusals.add(missing("sending facility", 4));
        }
        return refusals;
    }

    private static Reason missing(String what, int field) {
        return new Reason(ReasonCode.MISSING_PROPERTY, "", "the message has no " + what, "write it in MSH-" + field)
                .at(MessagePlace.HEADER.field(field).text());
    }

    private static Reason notSupported(String found, String wanted, MessagePlace place) {
        return new Reason(
                        ReasonCode.NOT_SUPPORTED,
                        "",
                        "'" + Texts.shortened(found) + "' is not supported in MSH-" + place.field(),
                        "send " + wanted)
                .at(place.text());
    }
}
