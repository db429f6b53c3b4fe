package example.tamponade.fhir.mapping;

import example.tamponade.core.event.Referral;
import example.tamponade.core.event.ReferralStep;
import java.util.List;
import org.hl7.fhir.r4.model.BooleanType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Communication;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.ServiceRequest;
import org.jspecify.annotations.Nullable;

/** A step of a referral: the request when it is decided, the task that follows it to its end, the note when handed over. */
final class ReferralMapper {

    static final String REQUEST = "referral-request";

    private ReferralMapper() {}

    static List<Resource> map(Referral referral, Recorded event) {
        ReferralCourse course = event.scope.referral(event);
        // The task may come to be another's when a decision comes late; what names the step alone stands first.
        Resource own = switch (referral.step()) {
            case DECIDED -> request(referral, course, event);
            case DEPARTED, HANDED_OVER -> handover(referral, course, event);
            case ARRIVED -> StayMapper.during(event);
        };
        return List.of(own, event.scope.progress(course, event));
    }

    private static ServiceRequest request(Referral referral, ReferralCourse course, Recorded event) {
        ServiceRequest request = new ServiceRequest();
        request.setStatus(status(course));
        request.setIntent(ServiceRequest.ServiceRequestIntent.ORDER);
        request.setPriority(ServiceRequest.ServiceRequestPriority.URGENT);
        request.setCode(event.item("referral"));
        request.setSubject(event.scope.mother()).setEncounter(event.encounter());
        request.setAuthoredOnElement(Times.dateTime(event.at()));
        request.setRequester(event.scope.recorder(event.event));
        request.addPerformer(performer(referral, course, event));
        String facility = course.receivingFacility();
        if (facility != null) {
            request.addLocationReference(event.scope.facility(facility));
        }
        String line = "Referral to " + referral.to();
        if (referral.reason() != null) {
            CodeableConcept reason = event.answer("referral-reason", referral.reason());
            request.addReasonCode(reason);
            line += ": " + reason.getText();
        }
        request.addExtension(balloon(referral, event));
        return event.finish(request, REQUEST, REQUEST, line + words(referral));
    }

    private static ServiceRequest.ServiceRequestStatus status(ReferralCourse course) {
        if (course.isHandedOver()) {
            return ServiceRequest.ServiceRequestStatus.COMPLETED;
        }
        return course.whyEnded() == null
                ? ServiceRequest.ServiceRequestStatus.ACTIVE
                : ServiceRequest.ServiceRequestStatus.REVOKED;
    }

    /** Who is to take her: by name, and as an organization once the facility has recorded her arrival. */
    static Reference performer(Referral referral, ReferralCourse course, Recorded event) {
        String facility = course.receivingFacility();
        Reference performer = facility == null ? new Reference() : event.scope.organization(facility);
        return performer.setDisplay(referral.to());
    }

    private static Communication handover(Referral referral, ReferralCourse course, Recorded event) {
        String first = referral.step() == ReferralStep.DEPARTED ? "On the way to " : "Handed over to ";
        List<String> parts = HandoverNote.of(first + referral.to() + words(referral), referral, event);
        Communication note = event.communication(event.item("handover-note"), parts.toArray(new String[0]));
        @Nullable Recorded decision = course.decision();
        if (decision != null) {
            note.addAbout(decision.own("ServiceRequest", REQUEST));
        }
        note.addRecipient(performer(referral, course, event));
        return event.finish(note, "handover-note", "handover-note", String.join(". ", parts));
    }

    static Extension balloon(Referral referral, Recorded event) {
        return event.extension("balloon-in-place", new BooleanType(referral.balloonInPlace()));
    }

    static String words(Referral referral) {
        return (referral.balloonInPlace() ? ", balloon in place" : ", no balloon in place")
                + (referral.transport() == null ? "" : ", by " + referral.transport());
    }
}
