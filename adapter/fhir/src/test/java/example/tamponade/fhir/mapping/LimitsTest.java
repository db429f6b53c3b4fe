package example.tamponade.fhir.mapping;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.event.Analyte;
import example.tamponade.core.event.BalloonFilled;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.Birth;
import example.tamponade.core.event.BirthMode;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.BloodProduct;
import example.tamponade.core.event.BloodProductGiven;
import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.Chamber;
import example.tamponade.core.event.DeviceKind;
import example.tamponade.core.event.Infusion;
import example.tamponade.core.event.Laboratory;
import example.tamponade.core.event.LossMethod;
import example.tamponade.core.event.LossReading;
import example.tamponade.core.event.Manoeuvre;
import example.tamponade.core.event.ManoeuvreKind;
import example.tamponade.core.event.Mother;
import example.tamponade.core.event.Note;
import example.tamponade.core.event.PlacentaState;
import example.tamponade.core.event.ReadinessChecked;
import example.tamponade.core.event.StoredSet;
import example.tamponade.core.event.Substance;
import example.tamponade.core.event.TamponadeDevice;
import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.event.Urine;
import example.tamponade.core.event.UterineTone;
import example.tamponade.core.event.UterusChecked;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.core.protocol.Measure;
import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.Shared;
import example.tamponade.fhir.conformance.ConformanceReport;
import java.math.BigDecimal;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Whatever the care protocol calls possible conforms once it is mapped. */
class LimitsTest {

    static Stream<Arguments> ends() {
        return Stream.of(Measure.values())
                .map(InventedCase.PROTOCOL::limit)
                .flatMap(it -> Stream.of(
                        Arguments.of(it.measure(), it.possibleFrom()), Arguments.of(it.measure(), it.possibleTo())));
    }

    @ParameterizedTest
    @MethodSource("ends")
    void theEndsOfWhatIsPossibleConform(Measure measure, BigDecimal value) {
        List<Resource> resources = Mapped.of(event(measure, value)).all();
        assertThat(Shared.CONFORMANCE.check(resources).problems()).isEmpty();
    }

    static Stream<BedsideEvent> edges() {
        BigDecimal one = BigDecimal.ONE;
        return Stream.of(
                signs(one, new BigDecimal("350"), BigDecimal.ZERO, null, null, null),
                new Urine(BigDecimal.ZERO, at(0), at(0)),
                loss(null, new BigDecimal("100"), new BigDecimal("90"), new BigDecimal("10")),
                new Laboratory(Analyte.LACTATE, BigDecimal.ZERO, "mmol/L"),
                new Manoeuvre(ManoeuvreKind.AORTIC_COMPRESSION, at(5), at(5)),
                new Birth(at(0), BirthMode.CAESAREAN, List.of(), PlacentaState.NOT_YET),
                new BloodLoss(
                        LossMethod.SUCTION,
                        LossReading.RUNNING_TOTAL,
                        "x".repeat(200),
                        new BigDecimal("1E+3"),
                        null,
                        null,
                        null,
                        true),
                new Note("\uD83D\uDE00 <script> & ]]> \"quoted\""));
    }

    @ParameterizedTest
    @MethodSource("edges")
    void whatStandsOnAnEdgeConforms(BedsideEvent data) {
        assertThat(Shared.CONFORMANCE.check(Mapped.of(data).all()).problems()).isEmpty();
    }

    // FHIR has no place for them; who takes events in decides whether to refuse them.
    @Test
    void controlCharactersInWordsAreWarnedOf() {
        ConformanceReport report = Shared.CONFORMANCE.check(
                Mapped.of(new Note("a control \u0001 character")).all());
        assertThat(report.passed()).isTrue();
        assertThat(report.warnings()).isNotEmpty();
    }

    private static BedsideEvent event(Measure measure, BigDecimal value) {
        return switch (measure) {
            case PULSE -> signs(value, null, null, null, null, null);
            case SYSTOLIC -> signs(null, value, null, null, null, null);
            case DIASTOLIC -> signs(null, new BigDecimal("350"), value, null, null, null);
            case RESPIRATIONS -> signs(null, null, null, value, null, null);
            case OXYGEN_SATURATION -> signs(null, null, null, null, value, null);
            case TEMPERATURE -> signs(null, null, null, null, null, value);
            case LOSS_READING -> loss(value, null, null, null);
            case ITEM_WEIGHT -> loss(null, value, value, null);
            case OTHER_FLUID -> loss(new BigDecimal("10000"), null, null, value);
            case FUNDAL_HEIGHT -> new UterusChecked(UterineTone.FIRM, value);
            case URINE_VOLUME -> new Urine(value, at(0), at(60));
            case CHAMBER_STEP -> new BalloonFilled(Chamber.TAMPONADE, value, null);
            case CHAMBER_CAPACITY ->
                new TamponadeInserted(
                        new TamponadeDevice(DeviceKind.PURPOSE_MADE_BALLOON, null, null, value), null, true);
            case PRODUCT_VOLUME -> new BloodProductGiven(BloodProduct.PLASMA, 1, value);
            case PRODUCT_UNITS -> new BloodProductGiven(BloodProduct.PLASMA, value.intValue(), new BigDecimal("250"));
            case BAG_VOLUME -> new Infusion(1, 1, Substance.CRYSTALLOID, null, null, null, value, BigDecimal.ONE);
            case INFUSION_RATE ->
                new Infusion(1, 1, Substance.CRYSTALLOID, null, null, null, new BigDecimal("500"), value);
            case BODY_WEIGHT -> opened(value, null, null, null, null);
            case BODY_HEIGHT -> opened(null, value, null, null, null);
            case AGE -> opened(null, null, value.intValue(), null, null);
            case PREGNANCIES -> opened(null, null, null, value.intValue(), null);
            case GESTATION -> opened(null, null, null, null, value);
            case THEATRE_MINUTES ->
                new ReadinessChecked(new StoredSet(true, true, null, null, true), true, true, true, value.intValue());
        };
    }

    private static VitalSigns signs(
            BigDecimal pulse,
            BigDecimal systolic,
            BigDecimal diastolic,
            BigDecimal respirations,
            BigDecimal saturation,
            BigDecimal temperature) {
        return new VitalSigns(pulse, systolic, diastolic, null, respirations, saturation, temperature, null);
    }

    private static BloodLoss loss(BigDecimal volume, BigDecimal wet, BigDecimal dry, BigDecimal other) {
        return new BloodLoss(LossMethod.WEIGHED, LossReading.INCREMENT, null, volume, wet, dry, other, null);
    }

    private static CaseOpened opened(
            BigDecimal weight, BigDecimal height, Integer age, Integer pregnancies, BigDecimal gestation) {
        Mother mother = new Mother(List.of(), null, null, age, weight, height, pregnancies, pregnancies, gestation);
        return new CaseOpened(mother, at(0), null);
    }

    private static OffsetDateTime at(int minute) {
        return OffsetDateTime.parse("2026-03-01T21:00:00+05:45").plusMinutes(minute);
    }
}
