package example.tamponade.app.results;

import ca.uhn.hl7v2.HL7Exception;
import ca.uhn.hl7v2.model.v251.datatype.CE;
import ca.uhn.hl7v2.model.v251.group.ORU_R01_ORDER_OBSERVATION;
import ca.uhn.hl7v2.model.v251.message.ORU_R01;
import ca.uhn.hl7v2.model.v251.segment.MSH;
import ca.uhn.hl7v2.model.v251.segment.NTE;
import ca.uhn.hl7v2.model.v251.segment.OBR;
import ca.uhn.hl7v2.model.v251.segment.PID;
import ca.uhn.hl7v2.model.v251.segment.PV1;
import example.tamponade.app.intake.Piece;
import example.tamponade.core.event.CaseId;
import example.tamponade.fhir.mapping.CaseMapper;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Resource;

/**
 * A result message (HL7 2.5.1, ORU^R01^ORU_R01, chapter 7): one OBR for each derived value, with the value in its OBX, and
 * the warnings as notes of an OBR of their own. The same content has the same number, so that sending again is seen as that.
 */
public final class ResultMessage {

    private static final String APPLICATION = "TAMPONADE";
    // At most 20 characters (MSH-10).
    private static final int NUMBER_DIGITS = 20;

    private final ORU_R01 message = new ORU_R01();
    private int groups;

    private ResultMessage() {}

    /**
     * Tells what older systems read of these resources.
     *
     * @param caseId the case
     * @param mother the mother, as she is on record
     * @param resources resources of the case; what is neither a derived value nor a warning is passed over
     * @param at when it is sent
     * @return the message; empty when there is nothing in it to tell
     */
    public static Optional<ORU_R01> of(CaseId caseId, Patient mother, List<Resource> resources, Instant at) {
        List<Observation> values = resources.stream()
                .filter(Observation.class::isInstance)
                .map(Observation.class::cast)
                .filter(ResultValues::isDerived)
                .filter(ResultValues::canBeTold)
                .toList();
        List<Flag> warnings = resources.stream()
                .filter(Flag.class::isInstance)
                .map(Flag.class::cast)
                .toList();
        if (values.isEmpty() && warnings.isEmpty()) {
            return Optional.empty();
        }
        try {
            return Optional.of(new ResultMessage().built(caseId, mother, values, warnings, at));
        } catch (HL7Exception e) {
            throw new IllegalStateException("a result message cannot be written", e);
        }
    }

    private ORU_R01 built(CaseId caseId, Patient mother, List<Observation> values, List<Flag> warnings, Instant at)
            throws HL7Exception {
        header(caseId);
        mother(message.getPATIENT_RESULT().getPATIENT().getPID(), caseId, mother);
        PV1 visit = message.getPATIENT_RESULT().getPATIENT().getVISIT().getPV1();
        visit.getPatientClass().setValue("I");
        visit.getVisitNumber().getIDNumber().setValue(caseId.number());
        visit.getVisitNumber().getAssigningAuthority().getNamespaceID().setValue(caseId.facilityId());
        for (Observation value : values) {
            value(value);
        }
        if (!warnings.isEmpty()) {
            warnings(warnings);
        }
        message.getMSH()
                .getMessageControlID()
                .setValue(Piece.digest(message.encode()).substring(0, NUMBER_DIGITS));
        message.getMSH().getDateTimeOfMessage().getTime().setValue(ResultValues.time(at.atOffset(ZoneOffset.UTC)));
        return message;
    }

    private void header(CaseId caseId) throws HL7Exception {
        MSH header = message.getMSH();
        header.getFieldSeparator().setValue("|");
        header.getEncodingCharacters().setValue("^~\\&");
        header.getSendingApplication().getNamespaceID().setValue(APPLICATION);
        header.getSendingFacility().getNamespaceID().setValue(caseId.facilityId());
        header.getMessageType().getMessageCode().setValue("ORU");
        header.getMessageType().getTriggerEvent().setValue("R01");
        header.getMessageType().getMessageStructure().setValue("ORU_R01");
        header.getProcessingID().getProcessingID().setValue("P");
        header.getVersionID().getVersionID().setValue("2.5.1");
        header.getAcceptAcknowledgmentType().setValue("NE");
        header.getApplicationAcknowledgmentType().setValue("AL");
        header.getCharacterSet(0).setValue("UNICODE UTF-8");
    }

    private static void mother(PID segment, CaseId caseId, Patient mother) throws HL7Exception {
        segment.getSetIDPID().setValue("1");
        int place = 0;
        for (Identifier identifier : mother.getIdentifier()) {
            var list = segment.getPatientIdentifierList(place++);
            list.getIDNumber().setValue(identifier.getValue());
            list.getAssigningAuthority().getUniversalID().setValue(identifier.getSystem());
            list.getAssigningAuthority().getUniversalIDType().setValue("URI");
        }
        var visit = segment.getPatientIdentifierList(place);
        visit.getIDNumber().setValue(caseId.number());
        visit.getAssigningAuthority().getNamespaceID().setValue(caseId.facilityId());
        visit.getIdentifierTypeCode().setValue("VN");
        String name = mother.getNameFirstRep().getText();
        if (name == null) {
            // A name that is not known (table 0200).
            segment.getPatientName(0).getNameTypeCode().setValue("U");
        } else {
            segment.getPatientName(0).getFamilyName().getSurname().setValue(name);
        }
        segment.getAdministrativeSex().setValue("F");
    }

    private void value(Observation value) throws HL7Exception {
        ORU_R01_ORDER_OBSERVATION group = group();
        OBR head = group.getOBR();
        head.getFillerOrderNumber().getEntityIdentifier().setValue(value.getIdPart());
        head.getFillerOrderNumber().getNamespaceID().setValue(APPLICATION);
        ResultValues.code(head.getUniversalServiceIdentifier(), value);
        OffsetDateTime time = ResultValues.time(value);
        if (time != null) {
            head.getObservationDateTime().getTime().setValue(ResultValues.time(time));
        }
        head.getResultStatus().setValue(ResultValues.headStatus(value));
        ResultValues.fill(group.getOBSERVATION(0).getOBX(), value, time);
        note(group.getOBSERVATION(0).getNTE(0), 1, CaseMapper.CAUTION);
    }

    private void warnings(List<Flag> warnings) throws HL7Exception {
        ORU_R01_ORDER_OBSERVATION group = group();
        CE code = group.getOBR().getUniversalServiceIdentifier();
        code.getIdentifier().setValue("bedside-warning");
        code.getText().setValue("Bedside warnings");
        code.getNameOfCodingSystem().setValue(ResultValues.OURS);
        group.getOBR().getResultStatus().setValue("F");
        int number = 0;
        for (Flag warning : warnings) {
            note(group.getNTE(number), number + 1, ResultValues.words(warning));
            number++;
        }
        note(group.getNTE(number), number + 1, CaseMapper.CAUTION);
    }

    private ORU_R01_ORDER_OBSERVATION group() throws HL7Exception {
        ORU_R01_ORDER_OBSERVATION group = message.getPATIENT_RESULT().getORDER_OBSERVATION(groups++);
        group.getOBR().getSetIDOBR().setValue(Integer.toString(groups));
        return group;
    }

    private static void note(NTE note, int number, String words) throws HL7Exception {
        note.getSetIDNTE().setValue(Integer.toString(number));
        note.getSourceOfComment().setValue("O");
        note.getComment(0).setValue(words);
    }
}
