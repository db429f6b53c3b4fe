package example.tamponade.fhir.mapping;

import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.StaffRole;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Location;
import org.hl7.fhir.r4.model.Organization;
import org.hl7.fhir.r4.model.Practitioner;
import org.hl7.fhir.r4.model.PractitionerRole;
import org.hl7.fhir.r4.model.Resource;

/** Where, by whom and with which software the events were recorded. */
final class SurroundingsMapper {

    private SurroundingsMapper() {}

    static List<Resource> map(CaseScope scope) {
        List<EventEnvelope> events = new ArrayList<>();
        scope.standing().forEach(it -> events.add(it.event));
        scope.file.withdrawn().forEach(it -> {
            events.add(it.event());
            events.add(it.retraction());
        });
        return map(events, scope);
    }

    static List<Resource> map(List<EventEnvelope> events, CaseScope scope) {
        if (events.isEmpty()) {
            return List.of();
        }
        Map<String, Resource> each = new LinkedHashMap<>();
        each.put("software", software(scope));
        facilities(events, scope).forEach(it -> {
            each.put("organization " + it, organization(it, scope));
            each.put("facility " + it, facility(it, scope));
        });
        events.forEach(it -> {
            if (isPerson(it)) {
                each.computeIfAbsent(
                        "person " + it.recordedBy().id() + " at " + it.facilityId(), key -> practitioner(it, scope));
            }
            each.computeIfAbsent(it.recordedBy() + " at " + it.facilityId(), key -> recorder(it, scope));
        });
        List<Resource> all = new ArrayList<>(each.values());
        if (!scope.file.isOfFacility()) {
            all.addAll(StayMapper.elsewhere(events, scope));
        }
        return all;
    }

    // The facility of the case is there even where others alone have recorded.
    private static Set<String> facilities(List<EventEnvelope> events, CaseScope scope) {
        Set<String> facilities = new LinkedHashSet<>();
        if (!scope.file.isOfFacility()) {
            facilities.add(scope.file.caseId().facilityId());
        }
        events.forEach(it -> facilities.add(it.facilityId()));
        return facilities;
    }

    private static boolean isPerson(EventEnvelope event) {
        return event.recordedBy().role() != StaffRole.MONITOR;
    }

    private static Device software(CaseScope scope) {
        Device device = new Device();
        device.setStatus(Device.FHIRDeviceStatus.ACTIVE);
        CodeableConcept type = scope.item("adapter-software");
        device.addDeviceName().setName(type.getText()).setType(Device.DeviceNameType.USERFRIENDLYNAME);
        device.setType(type);
        device.addVersion().setValue(scope.softwareVersion());
        device.addNote().setText(CaseMapper.CAUTION);
        String line = type.getText() + ", version " + scope.softwareVersion();
        String id = scope.ids.ofSoftware(scope.softwareVersion());
        return scope.frame.on(device, id, "adapter-software", List.of(line, CaseMapper.CAUTION));
    }

    private static Location facility(String facilityId, CaseScope scope) {
        Location location = new Location();
        location.addIdentifier(facilityIdentifier(facilityId, scope));
        location.setStatus(Location.LocationStatus.ACTIVE).setName(facilityId);
        location.setManagingOrganization(scope.organization(facilityId));
        return scope.frame.on(
                location, scope.ids.ofFacility(facilityId), "facility", List.of("Facility " + facilityId));
    }

    private static Organization organization(String facilityId, CaseScope scope) {
        Organization organization = new Organization();
        organization.addIdentifier(facilityIdentifier(facilityId, scope));
        organization.setActive(true).setName(facilityId);
        return scope.frame.on(
                organization,
                scope.ids.ofOrganization(facilityId),
                "facility-organization",
                List.of("Facility " + facilityId + ", as an organization"));
    }

    // A number alone may be given to somebody at another facility too; with the facility it is one person.
    private static Practitioner practitioner(EventEnvelope event, CaseScope scope) {
        String number = event.facilityId() + "/" + event.recordedBy().id();
        Practitioner practitioner = new Practitioner();
        practitioner.addIdentifier(identifier("practitioner", number, scope));
        practitioner.setActive(true);
        String id = scope.ids.ofPractitioner(event.facilityId(), event.recordedBy());
        String line = "Staff member " + event.recordedBy().id() + " of " + event.facilityId();
        return scope.frame.on(practitioner, id, "staff-member", List.of(line));
    }

    private static PractitionerRole recorder(EventEnvelope event, CaseScope scope) {
        CodeableConcept role =
                scope.terms.local("staff-role", event.recordedBy().role().code());
        PractitionerRole recorder = new PractitionerRole();
        recorder.addIdentifier(staffIdentifier(event, scope));
        recorder.addCode(role).addLocation(scope.facility(event.facilityId()));
        recorder.setOrganization(scope.organization(event.facilityId()));
        if (isPerson(event)) {
            recorder.setPractitioner(
                    scope.reference("Practitioner", scope.ids.ofPractitioner(event.facilityId(), event.recordedBy())));
        }
        String line = role.getText() + " " + event.recordedBy().id() + " at " + event.facilityId();
        String id = scope.ids.ofRecorder(event.facilityId(), event.recordedBy());
        return scope.frame.on(recorder, id, "recorder", List.of(line));
    }

    static Identifier staffIdentifier(EventEnvelope event, CaseScope scope) {
        return identifier("staff", event.recordedBy().id(), scope);
    }

    static Identifier facilityIdentifier(EventEnvelope event, CaseScope scope) {
        return facilityIdentifier(event.facilityId(), scope);
    }

    private static Identifier facilityIdentifier(String facilityId, CaseScope scope) {
        return identifier("facility", facilityId, scope);
    }

    private static Identifier identifier(String kind, String value, CaseScope scope) {
        return new Identifier()
                .setSystem(scope.terms.base() + "/identifier/" + kind)
                .setValue(value);
    }
}
