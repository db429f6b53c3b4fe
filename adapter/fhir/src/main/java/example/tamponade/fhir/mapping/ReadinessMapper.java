package example.tamponade.fhir.mapping;

import example.tamponade.core.event.ReadinessChecked;
import example.tamponade.core.event.StoredSet;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.BooleanType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Resource;

/** A facility's check of its readiness, and the set it keeps. */
final class ReadinessMapper {

    private ReadinessMapper() {}

    static List<Resource> map(ReadinessChecked check, Recorded event) {
        List<Resource> resources = new ArrayList<>();
        resources.add(readiness(check, event));
        if (check.tamponadeSet().present()) {
            resources.add(storedSet(check.tamponadeSet(), event));
        }
        return resources;
    }

    private static Observation readiness(ReadinessChecked check, Recorded event) {
        Observation readiness =
                event.observationOf(event.scope.facility(event.event.facilityId()), Kind.OWN, event.item("readiness"));
        add(readiness, "readiness-set-present", check.tamponadeSet().present(), event);
        add(readiness, "readiness-set-complete", check.tamponadeSet().complete(), event);
        add(readiness, "readiness-set-reachable", check.tamponadeSet().placeReachable(), event);
        add(readiness, "readiness-uterotonics-in-date", check.uterotonicsInDate(), event);
        add(readiness, "readiness-blood-reachable", check.bloodReachable(), event);
        add(readiness, "readiness-transport-reachable", check.transportReachable(), event);
        if (check.theatreReachableMinutes() != null) {
            readiness
                    .addComponent()
                    .setCode(event.item("readiness-theatre-minutes"))
                    .setValue(Quantities.of(check.theatreReachableMinutes(), "min"));
        }
        String parts =
                readiness.getComponent().stream().map(ReadinessMapper::words).collect(Collectors.joining(", "));
        return event.finish(
                readiness, "readiness", "readiness", readiness.getCode().getText() + ": " + parts);
    }

    private static void add(Observation readiness, String item, boolean value, Recorded event) {
        readiness.addComponent().setCode(event.item(item)).setValue(new BooleanType(value));
    }

    private static String words(Observation.ObservationComponentComponent part) {
        String value = part.hasValueBooleanType()
                ? part.getValueBooleanType().booleanValue() ? "yes" : "no"
                : Quantities.words(part.getValueQuantity());
        return part.getCode().getText().toLowerCase(Locale.ROOT) + " " + value;
    }

    private static Device storedSet(StoredSet set, Recorded event) {
        Device device = new Device();
        device.setStatus(Device.FHIRDeviceStatus.ACTIVE);
        device.setType(new CodeableConcept().setText("Uterine balloon tamponade set"));
        device.setLocation(event.scope.facility(event.event.facilityId()));
        String line = "Uterine balloon tamponade set in store, " + (set.complete() ? "complete" : "not complete");
        if (set.lot() != null) {
            device.setLotNumber(set.lot());
            line += ", lot " + set.lot();
        }
        if (set.expiry() != null) {
            device.setExpirationDateElement(Times.day(set.expiry()));
            line += ", use by " + set.expiry();
        }
        return event.finish(device, "stored-tamponade-set", "stored-tamponade-set", line);
    }
}
