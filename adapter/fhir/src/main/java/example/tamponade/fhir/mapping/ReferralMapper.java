package example.tamponade.fhir.mapping;

import example.tamponade.core.event.Referral;
import example.tamponade.core.event.ReferralStep;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.BooleanType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Communication;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.ServiceRequest;
import org.hl7.fhir.r4.model.Task;
import org.jspecify.annotations.Nullable;

/** A step of a referral: the request when it is decided, its progress at each step, the note when handed over. */
final class ReferralMapper {

    private static final String REQUEST = "referral-request";

    private ReferralMapper() {}

    static List<Resource> map(Referral referral, Recorded event) {
        List<Resource> resources = new ArrayList<>();
        Recorded decided = decided(event);
        if (referral.step() == ReferralStep.DECIDED) {
            resources.add(request(referral, event));
        }
        resources.add(progress(referral, decided, event));
        if (referral.step() == ReferralStep.DEPARTED || referral.step() == ReferralStep.HANDED_OVER) {
            resources.add(handover(referral, decided, event));
        }
        return resources;
    }

    /** The last decision at or before the event; null when none stands. */
    private static @Nullable Recorded decided(Recorded event) {
        if (event.standing == Standing.WITHDRAWN) {
            return null;
        }
        Recorded last = null;
        for (Recorded other : event.scope.standing()) {
            if (is(other, ReferralStep.DECIDED)) {
                last = other;
            }
            if (other.root.equals(event.root)) {
                return last;
            }
        }
        return last;
    }

    private static boolean is(Recorded event, ReferralStep step) {
        return event.data() instanceof Referral referral && referral.step() == step;
    }

    private static ServiceRequest request(Referral referral, Recorded event) {
        ServiceRequest request = new ServiceRequest();
        request.setStatus(
                handedOver(event)
                        ? ServiceRequest.ServiceRequestStatus.COMPLETED
                        : ServiceRequest.ServiceRequestStatus.ACTIVE);
        request.setIntent(ServiceRequest.ServiceRequestIntent.ORDER);
        request.setPriority(ServiceRequest.ServiceRequestPriority.URGENT);
        request.setCode(event.item("referral"));
        request.setSubject(event.scope.mother()).setEncounter(event.scope.encounter());
        request.setAuthoredOnElement(Times.dateTime(event.at()));
        request.setRequester(event.scope.recorder(event.event));
        request.addPerformer().setDisplay(referral.to());
        String line = "Referral to " + referral.to();
        if (referral.reason() != null) {
            CodeableConcept reason = event.answer("referral-reason", referral.reason());
            request.addReasonCode(reason);
            line += ": " + reason.getText();
        }
        request.addExtension(balloon(referral, event));
        return event.finish(request, REQUEST, "referral-request", line + words(referral));
    }

    private static boolean handedOver(Recorded decision) {
        return decision.scope.standing().stream()
                .filter(it -> is(it, ReferralStep.HANDED_OVER))
                .map(ReferralMapper::decided)
                .anyMatch(it -> it != null && it.root.equals(decision.root));
    }

    private static Task progress(Referral referral, @Nullable Recorded decided, Recorded event) {
        CodeableConcept step = event.answer("referral-step", referral.step());
        Task task = new Task();
        task.setStatus(status(referral.step()));
        task.setIntent(Task.TaskIntent.ORDER);
        task.setCode(event.item("referral-progress"));
        task.setBusinessStatus(step);
        if (decided != null) {
            task.setFocus(decided.own("ServiceRequest", REQUEST));
        }
        task.setFor(event.scope.mother()).setEncounter(event.scope.encounter());
        task.setAuthoredOnElement(Times.dateTime(event.at()));
        task.setRequester(event.scope.recorder(event.event));
        task.addExtension(balloon(referral, event));
        String line = "Referral to " + referral.to() + ": " + step.getText() + words(referral);
        task.setDescription(line);
        if (referral.transport() != null) {
            task.addNote().setText("Transport: " + referral.transport());
        }
        return event.finish(task, "referral-progress", "referral-progress", line);
    }

    private static Task.TaskStatus status(ReferralStep step) {
        return switch (step) {
            case DECIDED -> Task.TaskStatus.REQUESTED;
            case DEPARTED, ARRIVED -> Task.TaskStatus.INPROGRESS;
            case HANDED_OVER -> Task.TaskStatus.COMPLETED;
        };
    }

    private static Communication handover(Referral referral, @Nullable Recorded decided, Recorded event) {
        String first = referral.step() == ReferralStep.DEPARTED ? "On the way to " : "Handed over to ";
        List<String> parts = HandoverNote.of(first + referral.to() + words(referral), referral, event);
        Communication note = event.communication(event.item("handover-note"), parts.toArray(new String[0]));
        if (decided != null) {
            note.addAbout(decided.own("ServiceRequest", REQUEST));
        }
        return event.finish(note, "handover-note", "handover-note", String.join(". ", parts));
    }

    private static Extension balloon(Referral referral, Recorded event) {
        return event.extension("balloon-in-place", new BooleanType(referral.balloonInPlace()));
    }

    private static String words(Referral referral) {
        return (referral.balloonInPlace() ? ", balloon in place" : ", no balloon in place")
                + (referral.transport() == null ? "" : ", by " + referral.transport());
    }
}
