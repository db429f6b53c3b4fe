package example.tamponade.fhir.mapping;

import static example.tamponade.fhir.Checks.codes;
import static example.tamponade.fhir.Checks.extension;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.MedicineGiven;
import example.tamponade.core.event.MotherOutcome;
import example.tamponade.core.event.Outcome;
import example.tamponade.core.event.Referral;
import example.tamponade.core.event.ReferralReason;
import example.tamponade.core.event.ReferralStep;
import example.tamponade.core.event.Route;
import example.tamponade.core.event.Substance;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.Shared;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Communication;
import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.Location;
import org.hl7.fhir.r4.model.Organization;
import org.hl7.fhir.r4.model.ServiceRequest;
import org.hl7.fhir.r4.model.Task;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

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
    void oneTaskFollowsTheRequestThroughItsStepsAndEnds() {
        Task task = CASE.one(Task.class, "referral-progress");
        assertThat(task.getStatus()).isEqualTo(Task.TaskStatus.COMPLETED);
        assertThat(codes(task.getBusinessStatus())).containsExactly("referral-step#handed-over");
        assertThat(task.getOutput().stream().map(it -> codes(it.getType()).get(0)))
                .containsExactly(
                        "referral-step#decided",
                        "referral-step#departed",
                        "referral-step#arrived",
                        "referral-step#handed-over");
        assertThat(task.getOutput().stream().map(it -> it.getValue().primitiveValue()))
                .isSorted();
        assertThat(CASE.at(task.getFocus())).isInstanceOf(ServiceRequest.class);
        assertThat(task.getNoteFirstRep().getText()).isEqualTo("Transport: ambulance");
    }

    @ParameterizedTest
    @CsvSource({
        "DECIDED, REQUESTED, ACTIVE",
        "DEPARTED, INPROGRESS, ACTIVE",
        "ARRIVED, INPROGRESS, ACTIVE",
        "HANDED_OVER, COMPLETED, COMPLETED"
    })
    void theTaskIsWhereTheLastStepIs(
            ReferralStep last, Task.TaskStatus state, ServiceRequest.ServiceRequestStatus request) {
        List<BedsideEvent> steps = new ArrayList<>(List.of(decision()));
        for (ReferralStep step : ReferralStep.values()) {
            if (step != ReferralStep.DECIDED && step.compareTo(last) <= 0) {
                steps.add(step(step));
            }
        }
        Mapped mapped = Mapped.of(steps.toArray(new BedsideEvent[0]));
        assertThat(mapped.one(Task.class, "referral-progress").getStatus()).isEqualTo(state);
        assertThat(mapped.one(ServiceRequest.class, "referral-request").getStatus())
                .isEqualTo(request);
    }

    @Test
    void aReferralThatCameToNothingIsNotLeftOpen() {
        Mapped closed = Mapped.of(decision(), new Outcome(MotherOutcome.RECOVERED, true));
        assertThat(closed.one(Task.class, "referral-progress").getStatus()).isEqualTo(Task.TaskStatus.CANCELLED);
        assertThat(closed.one(ServiceRequest.class, "referral-request").getStatus())
                .isEqualTo(ServiceRequest.ServiceRequestStatus.REVOKED);

        Mapped again = Mapped.of(decision(), decision());
        assertThat(again.all(Task.class, "referral-progress").stream().map(Task::getStatus))
                .containsExactly(Task.TaskStatus.CANCELLED, Task.TaskStatus.REQUESTED);
    }

    @Test
    void theFacilityThatRecordsHerArrivalIsTheReceiver() {
        List<EventEnvelope> events = new ArrayList<>(InventedCase.eventsOf(
                decision(),
                step(ReferralStep.DEPARTED),
                step(ReferralStep.ARRIVED),
                signs(),
                step(ReferralStep.HANDED_OVER)));
        for (int i = 2; i < events.size(); i++) {
            events.set(i, InventedCase.at("greatmere-dh", events.get(i)));
        }
        Mapped mapped = Mapped.ofCase(events);
        List<Encounter> stays = mapped.all(Encounter.class, "maternity-encounter");
        Task task = mapped.one(Task.class, "referral-progress");
        ServiceRequest request = mapped.one(ServiceRequest.class, "referral-request");

        assertThat(stays)
                .hasSize(2)
                .allSatisfy(it -> assertThat(it.getEpisodeOfCare()).hasSize(1));
        assertThat(stays.stream().map(Encounter::getStatus))
                .containsExactly(Encounter.EncounterStatus.FINISHED, Encounter.EncounterStatus.INPROGRESS);
        assertThat(((Location) mapped.at(stays.get(0).getHospitalization().getDestination())).getName())
                .isEqualTo("greatmere-dh");
        assertThat(((Location) mapped.at(stays.get(1).getHospitalization().getOrigin())).getName())
                .isEqualTo(InventedCase.FACILITY);
        assertThat(((Organization) mapped.at(request.getPerformerFirstRep())).getName())
                .isEqualTo("greatmere-dh");
        assertThat(((Location) mapped.at(request.getLocationReferenceFirstRep())).getName())
                .isEqualTo("greatmere-dh");
        assertThat(((Organization) mapped.at(task.getOwner())).getName()).isEqualTo("greatmere-dh");
        assertThat(mapped.at(mapped.observation("vital-pulse").getEncounter())).isSameAs(stays.get(1));
        assertThat(mapped.all()).allSatisfy(it -> Mapped.references(it).forEach(mapped::at));
        assertThat(Shared.CONFORMANCE.check(mapped.all()).problems()).isEmpty();
    }

    @Test
    void stepsWithoutADecisionAreOneTaskAboutNothing() {
        Mapped steps = Mapped.of(step(ReferralStep.DEPARTED), step(ReferralStep.ARRIVED));
        assertThat(steps.one(Task.class, "referral-progress").hasFocus()).isFalse();
        assertThat(Shared.CONFORMANCE.check(steps.all()).problems()).isEmpty();
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
        assertThat(twice.all(Task.class, "referral-progress").stream()
                        .map(it -> (ServiceRequest) twice.at(it.getFocus())))
                .containsExactlyElementsOf(requests);
    }

    @Test
    void departureAndHandoverAreNotesAboutTheRequest() {
        List<Communication> notes = CASE.all(Communication.class, "handover-note");
        assertThat(notes)
                .hasSize(2)
                .allSatisfy(it -> assertThat(CASE.at(it.getAboutFirstRep())).isInstanceOf(ServiceRequest.class));
        assertThat(parts(notes.get(0)).get(0)).startsWith("Situation: On the way to Greatmere District Hospital");
        List<String> parts = parts(notes.get(1));
        assertThat(parts.get(0))
                .isEqualTo("Situation: Handed over to Greatmere District Hospital, balloon in place."
                        + " Balloon inserted 2026-03-01 23:20 +05:45,"
                        + " holding 260.0 mL, 2026-03-01 23:21 +05:45."
                        + " Bleeding: Heavy, 2026-03-01 22:20 +05:45."
                        + " Blood loss so far 680.0 mL, 2026-03-01 23:02 +05:45");
        assertThat(parts.get(1))
                .isEqualTo("Background: Birth: Placenta complete, 2026-03-01 22:01 +05:45."
                        + " Haemorrhage recognised: 2026-03-01 22:10 +05:45."
                        + " Given: Oxytocin 10 IU, Into a muscle, 2026-03-01 22:03 +05:45;"
                        + " Tranexamic acid 1 g, Into a vein, 2026-03-01 22:14 +05:45;"
                        + " Calcium gluconate 1000 mg, Into a vein, 2026-03-01 22:15 +05:45;"
                        + " Oxytocin 40 IU in 500 mL at 125 mL/h, line 1, bag 1, 2026-03-01 22:24 +05:45;"
                        + " Crystalloid fluid 1000 mL stopped, line 2, bag 1, 2026-03-01 22:24 +05:45;"
                        + " Red cells 2 units, 2026-03-01 22:24 +05:45");
        assertThat(parts.get(2))
                .startsWith("Assessment: Pulse: 122 /min, 2026-03-01 22:50 +05:45."
                        + " Blood pressure: 92/not recorded mmHg, 2026-03-01 23:00 +05:45."
                        + " Shock index 1.28, 2026-03-01 22:50 +05:45.")
                .contains("Urine: 60 mL from 2026-03-01 21:50 +05:45 to 2026-03-01 22:40 +05:45")
                .contains("Standing warnings: [high] Blood loss, alone or with an abnormal sign, meets the criterion"
                        + " for action. Since 2026-03-01 22:16 +05:45.");
        assertThat(parts.get(3))
                .isEqualTo("Needed: Balloon out by 2026-03-02 23:20 +05:45 (maximum-dwell)."
                        + " Second tranexamic acid not before 2026-03-01 22:44 +05:45."
                        + " Next check of pulse and pressure due 2026-03-01 22:55 +05:45."
                        + " Not recorded: nothing of the above");
        assertThat(parts.get(4)).isEqualTo(CaseMapper.CAUTION);
    }

    // It is written at every step of the way: its length must not grow with the case.
    @Test
    void aHandoverNamesTheLatestOfManyMedicines() {
        List<BedsideEvent> events = new ArrayList<>();
        for (int dose = 1; dose <= 40; dose++) {
            events.add(new MedicineGiven(Substance.OXYTOCIN, null, new BigDecimal(dose), "[iU]", Route.INTRAVENOUS));
        }
        events.add(new Referral(ReferralStep.HANDED_OVER, "Greatmere", null, false, null));

        assertThat(parts(Mapped.of(events.toArray(new BedsideEvent[0])).one(Communication.class, "handover-note"))
                        .get(1))
                .startsWith("Background: Given: 10 earlier ones are in the record; Oxytocin 11 IU,")
                .contains("Oxytocin 40 IU,");
    }

    @Test
    void aHandoverNamesWhatIsNotKnown() {
        Mapped bare = Mapped.of(new Referral(ReferralStep.HANDED_OVER, "Greatmere", null, false, "ambulance"));
        assertThat(parts(bare.one(Communication.class, "handover-note")))
                .containsExactly(
                        "Situation: Handed over to Greatmere, no balloon in place, by ambulance",
                        "Background: Medicines and blood: none on record",
                        "Assessment: Standing warnings: none on record",
                        "Needed: Not recorded: bleeding, blood loss so far, birth, haemorrhage recognised, pulse, blood"
                                + " pressure, shock index, respirations, oxygen saturation, consciousness, uterine"
                                + " tone, urine, haemoglobin, weight",
                        CaseMapper.CAUTION);
    }

    private static List<String> parts(Communication note) {
        return note.getPayload().stream()
                .map(it -> it.getContentStringType().getValue())
                .toList();
    }

    private static Referral step(ReferralStep step) {
        return new Referral(step, "Greatmere", null, true, null);
    }

    private static VitalSigns signs() {
        return new VitalSigns(new BigDecimal("96"), null, null, null, null, null, null, null);
    }

    private static Referral decision() {
        return new Referral(ReferralStep.DECIDED, "Greatmere", ReferralReason.SURGERY_NEEDED, true, null);
    }
}
