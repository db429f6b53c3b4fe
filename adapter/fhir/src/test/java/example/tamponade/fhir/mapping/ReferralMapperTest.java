package example.tamponade.fhir.mapping;

import static example.tamponade.fhir.Checks.codes;
import static example.tamponade.fhir.Checks.extension;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.event.Referral;
import example.tamponade.core.event.ReferralReason;
import example.tamponade.core.event.ReferralStep;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.Shared;
import java.util.List;
import org.hl7.fhir.r4.model.Communication;
import org.hl7.fhir.r4.model.ServiceRequest;
import org.hl7.fhir.r4.model.Task;
import org.junit.jupiter.api.Test;

class ReferralMapperTest {

    private static final Mapped CASE = Mapped.ofInventedCase();

    @Test
    void theDecisionIsARequestThatTheHandoverCompletes() {
        ServiceRequest request = CASE.one(ServiceRequest.class, "referral-request");
        assertThat(request.getStatus()).isEqualTo(ServiceRequest.ServiceRequestStatus.COMPLETED);
        assertThat(request.getIntent()).isEqualTo(ServiceRequest.ServiceRequestIntent.ORDER);
        assertThat(request.getPerformerFirstRep().getDisplay()).isEqualTo("Greatmere District Hospital");
        assertThat(codes(request.getReasonCodeFirstRep())).containsExactly("referral-reason#bleeding-not-controlled");
        assertThat(extension(request, "balloon-in-place").get(0).primitiveValue())
                .isEqualTo("true");
    }

    @Test
    void aRequestIsActiveUntilTheHandover() {
        Mapped open = Mapped.of(decision());
        assertThat(open.one(ServiceRequest.class, "referral-request").getStatus())
                .isEqualTo(ServiceRequest.ServiceRequestStatus.ACTIVE);
    }

    @Test
    void everyStepIsATaskAboutTheRequest() {
        List<Task> steps = CASE.all(Task.class, "referral-progress");
        assertThat(steps.stream().map(Task::getStatus))
                .containsExactly(
                        Task.TaskStatus.REQUESTED,
                        Task.TaskStatus.INPROGRESS,
                        Task.TaskStatus.INPROGRESS,
                        Task.TaskStatus.COMPLETED);
        assertThat(steps.stream().map(it -> codes(it.getBusinessStatus()).get(0)))
                .containsExactly(
                        "referral-step#decided",
                        "referral-step#departed",
                        "referral-step#arrived",
                        "referral-step#handed-over");
        assertThat(steps).allSatisfy(it -> assertThat(CASE.at(it.getFocus())).isInstanceOf(ServiceRequest.class));
        assertThat(steps.get(1).getNoteFirstRep().getText()).isEqualTo("Transport: ambulance");
    }

    @Test
    void aStepWithoutADecisionIsAboutNothing() {
        Mapped departed = Mapped.of(new Referral(ReferralStep.DEPARTED, "Greatmere", null, false, null));
        assertThat(departed.one(Task.class, "referral-progress").hasFocus()).isFalse();
        assertThat(Shared.CONFORMANCE.check(departed.all()).problems()).isEmpty();
    }

    @Test
    void aSecondReferralHasItsOwnRequest() {
        Mapped twice = Mapped.of(
                decision(),
                new Referral(ReferralStep.HANDED_OVER, "Greatmere", null, true, null),
                decision(),
                new Referral(ReferralStep.DEPARTED, "Greatmere", null, true, null));
        List<ServiceRequest> requests = twice.all(ServiceRequest.class, "referral-request");
        assertThat(requests.stream().map(ServiceRequest::getStatus))
                .containsExactly(
                        ServiceRequest.ServiceRequestStatus.COMPLETED, ServiceRequest.ServiceRequestStatus.ACTIVE);
        assertThat(twice.at(twice.all(Task.class, "referral-progress").stream()
                        .filter(it -> codes(it.getBusinessStatus()).contains("referral-step#departed"))
                        .findFirst()
                        .orElseThrow()
                        .getFocus()))
                .isSameAs(requests.get(1));
    }

    @Test
    void theHandoverIsANoteAboutTheRequest() {
        Communication note = CASE.one(Communication.class, "handover-note");
        assertThat(CASE.at(note.getAboutFirstRep())).isInstanceOf(ServiceRequest.class);
        assertThat(note.getPayloadFirstRep().getContentStringType().getValue())
                .isEqualTo("Handed over to Greatmere District Hospital, balloon in place."
                        + " Balloon in the uterus since 2026-03-01 23:20 +05:45,"
                        + " holding 260.0 mL, 2026-03-01 23:21 +05:45."
                        + " Blood loss so far 680.0 mL, 2026-03-01 23:02 +05:45."
                        + " Last pulse: 122 /min, 2026-03-01 22:50 +05:45."
                        + " Last blood pressure: 92/not recorded mmHg, 2026-03-01 23:00 +05:45");
    }

    @Test
    void aHandoverSaysNothingOfWhatIsNotKnown() {
        Mapped bare = Mapped.of(new Referral(ReferralStep.HANDED_OVER, "Greatmere", null, false, "ambulance"));
        assertThat(bare.one(Communication.class, "handover-note")
                        .getPayloadFirstRep()
                        .getContentStringType()
                        .getValue())
                .isEqualTo("Handed over to Greatmere, no balloon in place, by ambulance");
    }

    private static Referral decision() {
        return new Referral(ReferralStep.DECIDED, "Greatmere", ReferralReason.SURGERY_NEEDED, true, null);
    }
}
