package example.tamponade.fhir.mapping;

import java.util.EnumMap;
import java.util.Map;
import java.util.function.Consumer;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Communication;
import org.hl7.fhir.r4.model.Condition;
import org.hl7.fhir.r4.model.Consent;
import org.hl7.fhir.r4.model.DetectedIssue;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.DeviceUseStatement;
import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.EpisodeOfCare;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.MedicationAdministration;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Procedure;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.ResourceType;
import org.hl7.fhir.r4.model.ServiceRequest;
import org.hl7.fhir.r4.model.Task;

/** Marks a resource as entered in error, in the field that its type has for it. */
final class EnteredInError {

    private static final String VERIFICATION = "http://terminology.hl7.org/CodeSystem/condition-ver-status";

    private static final Map<ResourceType, Consumer<Resource>> MARKS = marks();

    private EnteredInError() {}

    /** Marks the resource in place; a type that has no such state is left as it is. */
    static void mark(Resource resource) {
        MARKS.getOrDefault(resource.getResourceType(), it -> {}).accept(resource);
    }

    private static Map<ResourceType, Consumer<Resource>> marks() {
        Map<ResourceType, Consumer<Resource>> marks = new EnumMap<>(ResourceType.class);
        on(marks, Observation.class, it -> it.setStatus(Observation.ObservationStatus.ENTEREDINERROR));
        on(marks, Procedure.class, it -> it.setStatus(Procedure.ProcedureStatus.ENTEREDINERROR));
        on(marks, Communication.class, it -> it.setStatus(Communication.CommunicationStatus.ENTEREDINERROR));
        on(
                marks,
                MedicationAdministration.class,
                it -> it.setStatus(MedicationAdministration.MedicationAdministrationStatus.ENTEREDINERROR));
        on(marks, Device.class, it -> it.setStatus(Device.FHIRDeviceStatus.ENTEREDINERROR));
        on(
                marks,
                DeviceUseStatement.class,
                it -> it.setStatus(DeviceUseStatement.DeviceUseStatementStatus.ENTEREDINERROR));
        on(marks, ServiceRequest.class, it -> it.setStatus(ServiceRequest.ServiceRequestStatus.ENTEREDINERROR));
        on(marks, Task.class, it -> it.setStatus(Task.TaskStatus.ENTEREDINERROR));
        on(marks, Encounter.class, it -> it.setStatus(Encounter.EncounterStatus.ENTEREDINERROR));
        on(marks, EpisodeOfCare.class, it -> it.setStatus(EpisodeOfCare.EpisodeOfCareStatus.ENTEREDINERROR));
        on(marks, Consent.class, it -> it.setStatus(Consent.ConsentState.ENTEREDINERROR));
        on(marks, Flag.class, it -> it.setStatus(Flag.FlagStatus.ENTEREDINERROR));
        on(marks, DetectedIssue.class, it -> it.setStatus(DetectedIssue.DetectedIssueStatus.ENTEREDINERROR));
        on(marks, Condition.class, EnteredInError::mark);
        return marks;
    }

    private static <T extends Resource> void on(
            Map<ResourceType, Consumer<Resource>> marks, Class<T> type, Consumer<T> mark) {
        marks.put(ResourceType.valueOf(type.getSimpleName()), it -> mark.accept(type.cast(it)));
    }

    // A condition entered in error has no clinical status (FHIR invariant con-5).
    private static void mark(Condition condition) {
        condition.setClinicalStatus(null);
        condition.setVerificationStatus(
                new CodeableConcept(new Coding(VERIFICATION, "entered-in-error", "Entered in Error")));
    }
}
