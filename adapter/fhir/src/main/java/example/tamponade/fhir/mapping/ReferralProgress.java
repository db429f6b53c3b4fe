package example.tamponade.fhir.mapping;

import example.tamponade.core.event.Referral;
import example.tamponade.core.event.ReferralStep;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.Task;
import org.jspecify.annotations.Nullable;

/** The task that follows one referral: every step with its time, and the state after the last of them. */
final class ReferralProgress {

    static final String PROGRESS = "referral-progress";

    private final ReferralCourse course;
    private final Recorded last;
    private final Referral referral;

    private ReferralProgress(ReferralCourse course, Recorded last) {
        this.course = course;
        this.last = last;
        this.referral = (Referral) last.data();
    }

    /**
     * The task of a referral.
     *
     * @param asked the step that is being mapped; the task is entered in error by it when no step stands
     */
    static Task of(ReferralCourse course, Recorded asked) {
        Recorded last = course.steps().isEmpty()
                ? asked
                : course.steps().get(course.steps().size() - 1);
        Task task = new ReferralProgress(course, last).task();
        if (course.steps().isEmpty()) {
            EnteredInError.mark(task);
        }
        return task;
    }

    /** The id of the task: that of the decision or, of steps whose decision is not on record, that of the case. */
    static String id(ReferralCourse course, CaseScope scope) {
        Recorded decision = course.decision();
        return decision == null ? scope.caseId(PROGRESS) : scope.ids.of(decision.root, PROGRESS);
    }

    private Task task() {
        CodeableConcept step = last.answer("referral-step", referral.step());
        Task task = new Task();
        task.setStatus(status());
        task.setIntent(Task.TaskIntent.ORDER);
        task.setCode(last.item(PROGRESS));
        task.setBusinessStatus(step);
        task.setFor(last.scope.mother()).setEncounter(first().encounter());
        task.setAuthoredOnElement(Times.dateTime(first().at()));
        task.setLastModifiedElement(Times.dateTime(last.at()));
        task.setRequester(last.scope.recorder(first().event));
        decided(task);
        receiver(task);
        course.steps()
                .forEach(it -> task.addOutput()
                        .setType(it.answer("referral-step", ReferralCourse.step(it)))
                        .setValue(Times.dateTime(it.at())));
        way(task);
        task.addExtension(ReferralMapper.balloon(referral, last));
        String line = "Referral to " + referral.to() + ": " + step.getText() + ReferralMapper.words(referral);
        String ended = course.whyEnded();
        if (ended != null) {
            task.setStatusReason(new CodeableConcept().setText(ended));
            line += "; " + ended;
        }
        task.setDescription(line);
        return last.describe(task, id(course, last.scope), PROGRESS, PROGRESS, line);
    }

    private Recorded first() {
        return course.steps().isEmpty() ? last : course.steps().get(0);
    }

    private Task.TaskStatus status() {
        if (course.whyEnded() != null) {
            return Task.TaskStatus.CANCELLED;
        }
        return switch (referral.step()) {
            case DECIDED -> Task.TaskStatus.REQUESTED;
            case DEPARTED, ARRIVED -> Task.TaskStatus.INPROGRESS;
            case HANDED_OVER -> Task.TaskStatus.COMPLETED;
        };
    }

    private void decided(Task task) {
        @Nullable Recorded decision = course.decision();
        if (decision != null) {
            task.setFocus(decision.own("ServiceRequest", ReferralMapper.REQUEST));
        }
    }

    private void receiver(Task task) {
        String facility = course.receivingFacility();
        if (facility != null) {
            task.setOwner(last.scope.organization(facility).setDisplay(referral.to()));
            task.setLocation(last.scope.facility(facility));
        }
    }

    // From the departure to the hand-over, as far as they are on record.
    private void way(Task task) {
        Period way = new Period();
        Recorded departed = course.first(ReferralStep.DEPARTED);
        Recorded handedOver = course.first(ReferralStep.HANDED_OVER);
        if (departed != null) {
            way.setStartElement(Times.dateTime(departed.at()));
        }
        if (handedOver != null && (departed == null || !handedOver.at().isBefore(departed.at()))) {
            way.setEndElement(Times.dateTime(handedOver.at()));
        }
        if (!way.isEmpty()) {
            task.setExecutionPeriod(way);
        }
        course.steps().stream()
                .map(it -> ((Referral) it.data()).transport())
                .filter(it -> it != null)
                .distinct()
                .forEach(it -> task.addNote().setText("Transport: " + it));
    }
}
