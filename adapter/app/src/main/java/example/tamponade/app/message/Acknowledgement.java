package example.tamponade.app.message;

import ca.uhn.hl7v2.AcknowledgmentCode;
import ca.uhn.hl7v2.ErrorCode;
import ca.uhn.hl7v2.HL7Exception;
import ca.uhn.hl7v2.Severity;
import ca.uhn.hl7v2.model.v251.datatype.ERL;
import ca.uhn.hl7v2.model.v251.message.ACK;
import ca.uhn.hl7v2.model.v251.segment.ERR;
import ca.uhn.hl7v2.model.v251.segment.MSH;
import example.tamponade.app.intake.Reason;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import org.jspecify.annotations.Nullable;

/**
 * The answer to a message in the original acknowledgement mode (HL7 2.5.1, 2.9.2): AA when every event in it is on disk, AE
 * with an ERR segment for each reason when something in it is refused, AR when the message is not taken at all.
 */
final class Acknowledgement {

    private static final DateTimeFormatter TIME =
            DateTimeFormatter.ofPattern("yyyyMMddHHmmss.SSSxx").withZone(ZoneOffset.UTC);

    private final ACK ack = new ACK(Hl7Parser.model());

    /**
     * Begins an answer.
     *
     * @param to the header of the message
     * @param at when it is answered
     * @param controlId the answer's own number, at most 20 characters
     */
    Acknowledgement(AcknowledgmentCode code, MessageHeader to, Instant at, String controlId) {
        // Otherwise the library would not write what a sender sent, where that is longer than its type allows.
        ack.setParser(Hl7Parser.forWriting());
        try {
            header(to, at, controlId);
            ack.getMSA().getAcknowledgmentCode().setValue(code.name());
            ack.getMSA().getMessageControlID().setValue(to.controlId());
        } catch (HL7Exception e) {
            throw new IllegalStateException("an acknowledgement cannot be written", e);
        }
    }

    private void header(MessageHeader to, Instant at, String controlId) throws HL7Exception {
        MSH msh = ack.getMSH();
        msh.getFieldSeparator().setValue("|");
        msh.getEncodingCharacters().setValue("^~\\&");
        msh.getSendingApplication().getNamespaceID().setValue(to.receivingApplication());
        msh.getSendingFacility().getNamespaceID().setValue(to.receivingFacility());
        msh.getReceivingApplication().getNamespaceID().setValue(to.application());
        msh.getReceivingFacility().getNamespaceID().setValue(to.facility());
        msh.getDateTimeOfMessage().getTime().setValue(TIME.format(at));
        msh.getMessageType().getMessageCode().setValue("ACK");
        msh.getMessageType().getTriggerEvent().setValue(to.trigger());
        msh.getMessageType().getMessageStructure().setValue("ACK");
        msh.getMessageControlID().setValue(controlId);
        msh.getProcessingID().getProcessingID().setValue(to.processing().isEmpty() ? "P" : to.processing());
        msh.getVersionID().getVersionID().setValue(Hl7Parser.VERSION);
        msh.getCharacterSet(0).setValue("UNICODE UTF-8");
    }

    /** Adds a reason of refusal. */
    Acknowledgement refused(Reason reason) {
        MessagePlace place = MessagePlace.read(reason.place());
        ErrorCode code = ErrorCodes.of(reason.code(), place);
        return error(Severity.ERROR, code, place, reason.code().code(), reason.message(), reason.remedy());
    }

    /** Adds what was passed over. */
    Acknowledgement remarked(Remark remark) {
        return error(Severity.WARNING, ErrorCode.MESSAGE_ACCEPTED, remark.place(), "", remark.message(), "");
    }

    /** Adds that the message could not be processed, though nothing may be wrong in it. */
    Acknowledgement failed(String remedy) {
        return error(
                Severity.ERROR,
                ErrorCode.APPLICATION_INTERNAL_ERROR,
                null,
                "",
                "nothing of the message was taken",
                remedy);
    }

    private Acknowledgement error(
            Severity severity,
            ErrorCode code,
            @Nullable MessagePlace place,
            String own,
            String message,
            String remedy) {
        try {
            ERR err = ack.getERR(ack.getERRReps());
            if (place != null) {
                locate(err.getErrorLocation(0), place);
            }
            err.getHL7ErrorCode().getIdentifier().setValue(Integer.toString(code.getCode()));
            err.getHL7ErrorCode().getText().setValue(code.getMessage());
            err.getHL7ErrorCode().getNameOfCodingSystem().setValue(ErrorCode.codeTable());
            err.getSeverity().setValue(severity.getCode());
            if (!own.isEmpty()) {
                err.getApplicationErrorCode().getIdentifier().setValue(own);
                err.getApplicationErrorCode().getNameOfCodingSystem().setValue(ObservationCodes.OURS);
            }
            err.getDiagnosticInformation().setValue(message);
            err.getUserMessage().setValue(remedy);
            return this;
        } catch (HL7Exception e) {
            throw new IllegalStateException("an acknowledgement cannot be written", e);
        }
    }

    private static void locate(ERL location, MessagePlace place) throws HL7Exception {
        location.getSegmentID().setValue(place.segment());
        location.getSegmentSequence().setValue(Integer.toString(place.sequence()));
        if (place.field() > 0) {
            location.getFieldPosition().setValue(Integer.toString(place.field()));
        }
        if (place.component() > 0) {
            location.getFieldRepetition().setValue("1");
            location.getComponentNumber().setValue(Integer.toString(place.component()));
        }
    }

    /** The answer as it is sent. */
    String text() {
        try {
            return Hl7Parser.forWriting().encode(ack);
        } catch (HL7Exception e) {
            throw new IllegalStateException("an acknowledgement cannot be written", e);
        }
    }
}
