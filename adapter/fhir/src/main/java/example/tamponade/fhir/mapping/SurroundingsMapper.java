package example.tamponade.fhir.mapping;

import example.tamponade.core.event.EventEnvelope;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Location;
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
        events.forEach(it -> each.computeIfAbsent("at " + it.facilityId(), at -> facility(it.facilityId(), scope)));
        events.forEach(
                it -> each.computeIfAbsent(it.recordedBy() + " at " + it.facilityId(), key -> recorder(it, scope)));
        return List.copyOf(each.values());
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
        return scope.frame.on(
                location, scope.ids.ofFacility(facilityId), "facility", List.of("Facility " + facilityId));
    }

    private static PractitionerRole recorder(EventEnvelope event, CaseScope scope) {
        CodeableConcept role =
                scope.terms.local("staff-role", event.recordedBy().role().code());
        PractitionerRole recorder = new PractitionerRole();
        recorder.addIdentifier(staffIdentifier(event, scope));
        recorder.addCode(role).addLocation(scope.facility(event.facilityId()));
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
