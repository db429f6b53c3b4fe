package example.tamponade.app.message;

import ca.uhn.hl7v2.HL7Exception;
import ca.uhn.hl7v2.model.v251.segment.OBR;
import ca.uhn.hl7v2.model.v251.segment.OBX;
import ca.uhn.hl7v2.model.v251.segment.PID;
import ca.uhn.hl7v2.model.v251.segment.PV1;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Groups the segments of a message as ORU^R01 orders them (HL7 2.5.1, 7.3.1): patient and visit, then each OBR with its
 * OBX segments. Segments that say nothing of an event are passed over; an observation that belongs to no OBR is refused.
 */
final class MessageGroups {

    private final Hl7Parser parser;
    private final List<ObservationGroup> groups = new ArrayList<>();
    private final List<Reason> refusals = new ArrayList<>();
    private final Map<String, Integer> counts = new HashMap<>();
    private PID pid;
    private PV1 pv1;
    private @Nullable ObservationGroup current;

    private MessageGroups(Hl7Parser parser) throws HL7Exception {
        this.parser = parser;
        this.pid = parser.read(PID::new, "PID");
        this.pv1 = parser.read(PV1::new, "PV1");
    }

    static MessageGroups of(Hl7Parser parser, List<String> segments) {
        try {
            MessageGroups groups = new MessageGroups(parser);
            for (String segment : segments) {
                groups.add(segment);
            }
            groups.demandGroups();
            return groups;
        } catch (HL7Exception e) {
            throw new IllegalStateException("empty segments cannot be made", e);
        }
    }

    /** The groups, in their order. */
    List<ObservationGroup> groups() {
        return groups;
    }

    /** What is wrong beside the groups. */
    List<Reason> refusals() {
        return refusals;
    }

    private void add(String segment) {
        String id = segment.length() < 3 ? segment : segment.substring(0, 3);
        int number = counts.merge(id, 1, Integer::sum);
        try {
            switch (id) {
                case "PID" -> patient(segment);
                case "PV1" -> visit(segment);
                case "OBR" -> order(segment, number);
                case "OBX" -> observation(segment, number);
                // What follows a specimen tells of the specimen.
                case "SPM" -> current = null;
                default -> {}
            }
        } catch (HL7Exception e) {
            refusals.add(unreadable(e, MessagePlace.of(id, number)));
        }
    }

    // A patient that cannot be read must not leave the one before in its place.
    private void patient(String segment) throws HL7Exception {
        current = null;
        pv1 = parser.read(PV1::new, "PV1");
        pid = parser.read(PID::new, "PID");
        pid = parser.read(PID::new, segment);
    }

    private void visit(String segment) throws HL7Exception {
        pv1 = parser.read(PV1::new, "PV1");
        pv1 = parser.read(PV1::new, segment);
    }

    private void order(String segment, int number) throws HL7Exception {
        current = null;
        OBR obr = parser.read(OBR::new, segment);
        current = new ObservationGroup(number, obr, pid, pv1, new ArrayList<>(), new ArrayList<>());
        groups.add(current);
    }

    private void observation(String segment, int number) {
        if (current == null) {
            refuse(
                    "the observation follows no OBR",
                    "send each observation behind the OBR that it belongs to",
                    MessagePlace.of("OBX", number));
            return;
        }
        MessagePlace place = MessagePlace.observation(current.number(), number);
        try {
            current.observations().add(new ObservationGroup.Observation(place, parser.read(OBX::new, segment)));
        } catch (HL7Exception e) {
            current.refusals().add(unreadable(e, place));
        }
    }

    private static Reason unreadable(HL7Exception why, MessagePlace place) {
        return new Reason(
                        ReasonCode.MALFORMED_MESSAGE,
                        "",
                        "the segment cannot be read: " + why.getMessage(),
                        "write it as the standard has it")
                .at(place.text());
    }

    private void demandGroups() {
        if (groups.isEmpty() && refusals.isEmpty()) {
            refuse("the message has no OBR", "send one OBR for each event", MessagePlace.HEADER);
        }
    }

    private void refuse(String message, String remedy, MessagePlace place) {
        refusals.add(new Reason(ReasonCode.MALFORMED_MESSAGE, "", message, remedy).at(place.text()));
    }
}
