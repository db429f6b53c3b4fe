package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.Reading;
import example.tamponade.core.casefile.Tamponade;
import example.tamponade.core.event.TamponadeDevice;
import example.tamponade.core.event.TamponadeInserted;
import java.time.OffsetDateTime;
import java.util.List;
import org.hl7.fhir.r4.model.BooleanType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.DeviceUseStatement;
import org.hl7.fhir.r4.model.Procedure;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** An insertion and what has become of it since: the procedure, the device and its use. */
final class TamponadeMapper {

    static final String DEVICE = "tamponade-device";
    private static final String USE = "tamponade-use";

    private TamponadeMapper() {}

    static List<Resource> map(TamponadeInserted inserted, Recorded event) {
        OffsetDateTime removedAt = removedAt(event);
        return List.of(
                procedure(inserted, removedAt, event),
                device(inserted.device(), removedAt, event),
                use(inserted.device(), removedAt, event));
    }

    private static @Nullable OffsetDateTime removedAt(Recorded event) {
        return event.scope.file.tamponades().stream()
                .filter(it -> it.insertion().equals(event.root))
                .findFirst()
                .map(Tamponade::removedAt)
                .orElse(null);
    }

    private static Procedure procedure(TamponadeInserted inserted, @Nullable OffsetDateTime removedAt, Recorded event) {
        Procedure procedure = event.procedure(event.item("uterine-balloon-tamponade"));
        if (removedAt == null) {
            procedure.setStatus(Procedure.ProcedureStatus.INPROGRESS);
        }
        procedure.setPerformed(Times.period(event.at(), removedAt));
        procedure.addUsedReference(event.own("Device", DEVICE));
        if (event.recognition != null) {
            procedure.addReasonReference(event.scope.condition());
        }
        String line = procedure.getCode().getText() + words(event.at(), removedAt);
        if (inserted.guidedBy() != null) {
            CodeableConcept guidance = event.answer("guidance", inserted.guidedBy());
            procedure.addExtension(event.extension("guidance", guidance));
            line += ", guided: " + guidance.getText();
        }
        procedure.addExtension(event.extension("position-confirmed", new BooleanType(inserted.positionConfirmed())));
        line += inserted.positionConfirmed() ? ", position confirmed" : ", position not confirmed";
        return event.finish(procedure, Reading.TAMPONADE.code(), "tamponade", line);
    }

    private static Device device(TamponadeDevice inserted, @Nullable OffsetDateTime removedAt, Recorded event) {
        CodeableConcept kind = event.answer("device-kind", inserted.kind());
        Device device = new Device();
        device.setStatus(removedAt == null ? Device.FHIRDeviceStatus.ACTIVE : Device.FHIRDeviceStatus.INACTIVE);
        device.setType(kind).setPatient(event.scope.mother());
        String line = kind.getText();
        if (inserted.lot() != null) {
            device.setLotNumber(inserted.lot());
            line += ", lot " + inserted.lot();
        }
        if (inserted.expiry() != null) {
            device.setExpirationDateElement(Times.day(inserted.expiry()));
            line += ", use by " + inserted.expiry();
        }
        if (inserted.capacityMl() != null) {
            Quantity capacity = Quantities.of(inserted.capacityMl(), "mL");
            device.addProperty().setType(event.item("capacity")).addValueQuantity(capacity);
            line += ", capacity " + Quantities.words(capacity);
        }
        return event.finish(device, DEVICE, "tamponade-device", line);
    }

    private static DeviceUseStatement use(
            TamponadeDevice inserted, @Nullable OffsetDateTime removedAt, Recorded event) {
        DeviceUseStatement use = new DeviceUseStatement();
        use.setStatus(
                removedAt == null
                        ? DeviceUseStatement.DeviceUseStatementStatus.ACTIVE
                        : DeviceUseStatement.DeviceUseStatementStatus.COMPLETED);
        use.setSubject(event.scope.mother());
        use.addDerivedFrom(event.own("Procedure", Reading.TAMPONADE.code()));
        use.setTiming(Times.period(event.at(), removedAt));
        use.setRecordedOnElement(Times.dateTime(event.event.recordedAt()));
        use.setSource(event.scope.recorder(event.event));
        use.setDevice(event.own("Device", DEVICE));
        if (event.recognition != null) {
            use.addReasonReference(event.scope.condition());
        }
        use.setBodySite(new CodeableConcept().setText("Uterine cavity"));
        String line = event.answer("device-kind", inserted.kind()).getText() + " in the uterine cavity"
                + words(event.at(), removedAt);
        return event.finish(use, USE, "tamponade-use", line);
    }

    private static String words(OffsetDateTime from, @Nullable OffsetDateTime to) {
        return " from " + Times.words(from) + (to == null ? "" : " to " + Times.words(to));
    }
}
