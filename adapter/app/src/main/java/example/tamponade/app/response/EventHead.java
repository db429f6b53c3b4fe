package example.tamponade.app.response;

import example.tamponade.app.intake.EventIds;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.intake.StatedEvent;
import java.util.List;
import java.util.Objects;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.QuestionnaireResponse;
import org.hl7.fhir.r4.model.QuestionnaireResponse.QuestionnaireResponseStatus;
import org.jspecify.annotations.Nullable;

/** States what frames an event of a response: its id, whose it is, when and by whom, and what it replaces. */
final class EventHead {

    private static final String AUTHORED = "QuestionnaireResponse.authored";

    private final QuestionnaireResponse response;
    private final String number;
    private final Answered head;
    private final Answered event;
    private final List<Reason> reasons;

    /**
     * Frames an event.
     *
     * @param number what the event group is called in its response
     * @param head what the response says of all its events
     * @param event what the event group says
     */
    EventHead(QuestionnaireResponse response, String number, Answered head, Answered event, List<Reason> reasons) {
        this.response = response;
        this.number = number;
        this.head = head;
        this.event = event;
        this.reasons = reasons;
    }

    StatedEvent state(StatedEvent stated) {
        boolean withdrawn = response.getStatus() == QuestionnaireResponseStatus.ENTEREDINERROR;
        boolean readiness = event.type().equals("readiness-checked");
        if (!readiness) {
            head.state("caseId", stated);
            head.state("caseFacility", stated);
        }
        head.state("facilityId", stated);
        boolean own = event.text("recordedBy.id") != null || event.text("recordedBy.role") != null;
        (own ? event : head).state("recordedBy.id", stated);
        (own ? event : head).state("recordedBy.role", stated);
        event.state("source", stated);
        event.state("occurredAt", stated);
        if (withdrawn) {
            withdrawn(stated);
            return stated;
        }
        String id = id();
        if (event.text("eventId") != null) {
            event.state("eventId", stated);
        } else if (id != null) {
            stated.with("/eventId", id, "QuestionnaireResponse.identifier");
        }
        if (!event.type().equals(Answered.RETRACTION)) {
            event.state("type", stated);
            event.stateData(stated, "event " + number);
        }
        event.state("corrects", stated);
        event.state("retracts", stated);
        recordedAt(stated);
        return stated;
    }

    private void withdrawn(StatedEvent stated) {
        String id = event.text("eventId") == null ? id() : event.text("eventId");
        if (event.text("retracts") != null) {
            reasons.add(ResponseReader.reason(
                    ReasonCode.NOT_SUPPORTED,
                    "QuestionnaireResponse.status",
                    "a withdrawal cannot be withdrawn by a form",
                    "send what happened again, under an id of its own"));
        } else if (id != null) {
            stated.with("/retracts", id, "QuestionnaireResponse.status");
            stated.with(
                    "/eventId",
                    EventIds.of(InputFormat.RESPONSE, id, "entered-in-error").toString(),
                    "QuestionnaireResponse.status");
        }
        stateAuthored(stated);
    }

    private void recordedAt(StatedEvent stated) {
        boolean amended = response.getStatus() == QuestionnaireResponseStatus.AMENDED;
        boolean says = event.text("corrects") != null || event.text("retracts") != null;
        if (event.text("recordedAt") != null) {
            event.state("recordedAt", stated);
        } else if (!amended || says) {
            stateAuthored(stated);
        } else {
            reasons.add(new Reason(
                            ReasonCode.MISSING_PROPERTY,
                            "/recordedAt",
                            "the response was amended, and its time is no longer that of the first recording",
                            "answer recordedAt with the time it had before; in an event that replaces another, answer"
                                    + " corrects")
                    .at("event " + number + ", recordedAt"));
        }
    }

    private void stateAuthored(StatedEvent stated) {
        if (response.hasAuthored()) {
            stated.with("/recordedAt", response.getAuthoredElement().getValueAsString(), AUTHORED);
        } else {
            reasons.add(new Reason(
                            ReasonCode.MISSING_PROPERTY,
                            "/recordedAt",
                            "nothing says when it was recorded",
                            "send authored, or answer recordedAt")
                    .at(AUTHORED));
        }
    }

    // What names the group at its sender; what it corrects is part of the name, as the group replaces that.
    private @Nullable String id() {
        Identifier identifier = response.getIdentifier();
        if (ResponseReader.text(identifier.getValue()) == null) {
            if (event.text("eventId") == null) {
                reasons.add(new Reason(
                                ReasonCode.MISSING_PROPERTY,
                                "/eventId",
                                "nothing names the event, so that sending it again would count it twice",
                                "send an identifier of the response, or answer eventId")
                        .at("QuestionnaireResponse.identifier"));
            }
            return null;
        }
        // Without a system the number is the facility's own.
        String system = identifier.hasSystem()
                ? identifier.getSystem()
                : "facility/" + Objects.requireNonNullElse(head.text("facilityId"), "");
        String target = Objects.requireNonNullElse(
                event.text("corrects"), Objects.requireNonNullElse(event.text("retracts"), ""));
        return EventIds.of(InputFormat.RESPONSE, system, identifier.getValue(), number, target)
                .toString();
    }
}
