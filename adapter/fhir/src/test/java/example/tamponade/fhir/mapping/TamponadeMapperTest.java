package example.tamponade.fhir.mapping;

import static example.tamponade.fhir.Checks.assertQuantity;
import static example.tamponade.fhir.Checks.assertTime;
import static example.tamponade.fhir.Checks.codes;
import static example.tamponade.fhir.Checks.component;
import static example.tamponade.fhir.Checks.extension;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.event.StaffRole;
import example.tamponade.core.event.TamponadePrepared;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.Shared;
import java.util.List;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Condition;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.DeviceUseStatement;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Procedure;
import org.junit.jupiter.api.Test;

class TamponadeMapperTest {

    private static final Mapped CASE = Mapped.ofInventedCase();
    private static final List<Procedure> TAMPONADES = CASE.all(Procedure.class, "tamponade");

    @Test
    void eachInsertionIsATamponadeOfItsOwn() {
        assertThat(TAMPONADES).hasSize(2);
        assertThat(TAMPONADES.get(0).getStatus()).isEqualTo(Procedure.ProcedureStatus.COMPLETED);
        assertTime(TAMPONADES.get(0).getPerformedPeriod().getStartElement(), "2026-03-01T22:32:00+05:45");
        assertTime(TAMPONADES.get(0).getPerformedPeriod().getEndElement(), "2026-03-01T23:10:00+05:45");
        assertThat(TAMPONADES.get(1).getStatus()).isEqualTo(Procedure.ProcedureStatus.INPROGRESS);
        assertThat(TAMPONADES.get(1).getPerformedPeriod().hasEnd()).isFalse();
        assertThat(extension(TAMPONADES.get(0), "position-confirmed").get(0).primitiveValue())
                .isEqualTo("true");
        assertThat(codes(extension(TAMPONADES.get(0), "guidance").get(0))).containsExactly("guidance#ultrasound");
        assertThat(extension(TAMPONADES.get(1), "guidance")).isEmpty();
    }

    @Test
    void theDeviceIsNamedByProcedureAndUse() {
        Device device = CASE.all(Device.class, "tamponade-device").get(0);
        assertThat(codes(device.getType())).containsExactly("device-kind#condom-catheter");
        assertThat(device.getLotNumber()).isEqualTo("INV-17");
        assertThat(device.getExpirationDateElement().getValueAsString()).isEqualTo("2027-05-31");
        assertQuantity(device.getPropertyFirstRep().getValueQuantityFirstRep(), "500", "mL");
        assertThat(CASE.at(TAMPONADES.get(0).getUsedReferenceFirstRep())).isSameAs(device);
        DeviceUseStatement use =
                CASE.all(DeviceUseStatement.class, "tamponade-use").get(0);
        assertThat(CASE.at(use.getDevice())).isSameAs(device);
        assertThat(use.getStatus()).isEqualTo(DeviceUseStatement.DeviceUseStatementStatus.COMPLETED);
        assertTime(use.getTimingPeriod().getEndElement(), "2026-03-01T23:10:00+05:45");
        assertThat(use.getBodySite().getText()).isEqualTo("Uterine cavity");
        assertThat(CASE.at(use.getReasonReferenceFirstRep())).isInstanceOf(Condition.class);
    }

    @Test
    void fillingIsAStepAndAVolumeThatNamesItsChamber() {
        Observation filled =
                CASE.all(Observation.class, "balloon-volume-change").get(1);
        assertThat(codes(filled.getCode())).containsExactly("bedside-item#balloon-fluid-in");
        assertQuantity(filled.getValue(), "80", "mL");
        assertThat(codes(component(filled, "chamber").getValue())).containsExactly("chamber#retention");
        assertThat(codes(component(filled, "fill-fluid").getValue())).containsExactly("fill-fluid#sterile-water");
        assertThat(CASE.at(filled.getDevice()))
                .isSameAs(CASE.all(Device.class, "tamponade-device").get(0));
        Procedure step = (Procedure) CASE.at(filled.getPartOfFirstRep());
        assertThat(codes(step.getCode())).containsExactly("bedside-item#balloon-filling");
        assertThat(CASE.at(step.getPartOfFirstRep())).isSameAs(TAMPONADES.get(0));
    }

    @Test
    void drainingWithNoDeviceInPlaceBelongsToNoneAndIsMarked() {
        Observation drained = CASE.all(Observation.class, "balloon-volume-change").stream()
                .filter(it -> !it.hasDevice())
                .findFirst()
                .orElseThrow();
        assertThat(codes(drained.getCode())).containsExactly("bedside-item#balloon-fluid-out");
        assertThat(Mapped.tags(drained)).containsExactly("inconsistent-with-case");
        assertThat(((Procedure) CASE.at(drained.getPartOfFirstRep())).hasPartOf())
                .isFalse();
    }

    @Test
    void drainingMoreThanWasHeldIsMarked() {
        Observation drained =
                CASE.all(Observation.class, "balloon-volume-change").get(4);
        assertQuantity(drained.getValue(), "90", "mL");
        assertThat(Mapped.tags(drained)).containsExactly("inconsistent-with-case");
    }

    @Test
    void preparationIsPartOfTheTamponadeThatFollows() {
        Procedure preparation = CASE.one(Procedure.class, "tamponade-preparation");
        assertThat(CASE.at(preparation.getPartOfFirstRep())).isSameAs(TAMPONADES.get(0));
        assertThat(codes(preparation.getPerformerFirstRep().getFunction())).containsExactly("staff-role#nurse");
        List<Extension> checks = preparation.getExtensionsByUrl(Shared.TERMS.profile("preparation-check"));
        assertThat(checks.stream()
                        .map(it -> ((Coding) it.getExtensionByUrl("item").getValue()).getCode() + " "
                                + it.getExtensionByUrl("done").getValue().primitiveValue()))
                .containsExactly(
                        "device-assembled true", "leak-tested true", "antiseptic-used true", "gloves-sterile false");
    }

    @Test
    void preparationWithoutInsertionStandsAlone() {
        Mapped prepared = Mapped.of(new TamponadePrepared(true, true, true, true, StaffRole.DOCTOR));
        assertThat(prepared.one(Procedure.class, "tamponade-preparation").hasPartOf())
                .isFalse();
        assertThat(Shared.CONFORMANCE.check(prepared.all()).problems()).isEmpty();
    }

    @Test
    void positionAndRemovalBelongToTheTamponade() {
        Observation position = CASE.all(Observation.class, "tamponade-position").get(0);
        assertThat(codes(position.getValue())).containsExactly("balloon-position#in-the-uterus");
        assertThat(codes(position.getMethod())).containsExactly("guidance#ultrasound");
        assertThat(component(position, "position-secured").getValueBooleanType().booleanValue())
                .isTrue();
        assertThat(CASE.at(position.getPartOfFirstRep())).isSameAs(TAMPONADES.get(0));
        Procedure removal = CASE.one(Procedure.class, "tamponade-removal");
        assertThat(codes(removal.getReasonCodeFirstRep())).containsExactly("removal-reason#failed");
        assertThat(CASE.at(removal.getPartOfFirstRep())).isSameAs(TAMPONADES.get(0));
    }
}
