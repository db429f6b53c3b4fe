package example.tamponade.fhir.mapping;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.LossMethod;
import example.tamponade.core.event.LossReading;
import example.tamponade.fhir.FhirPaths;
import example.tamponade.fhir.Mapped;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.Date;
import java.util.List;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Condition;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.Procedure;
import org.hl7.fhir.r4.model.Quantity;
import org.junit.jupiter.api.Test;

/** Whoever has the resources alone can work out the derived values again. */
class RecomputationTest {

    private static final String LOSS =
            "Bundle.entry.resource.ofType(Observation).where(code.coding.code = 'blood-loss')";
    private static final String SUM = ".value.ofType(Quantity).value.aggregate($this + $total, 0.0)";

    private final Mapped mapped = Mapped.ofInventedCase();
    private final FhirPaths paths = new FhirPaths(mapped.all());

    @Test
    void cumulativeLossIsTheSumOfIncrementsAndTheFullestDrape() {
        BigDecimal increments = paths.decimal(LOSS + ".where(component.value.coding.code = 'increment')" + SUM);
        BigDecimal drape = paths.decimal(LOSS + ".where(component.value.coding.code = 'running-total')"
                + ".value.ofType(Quantity).value.aggregate(iif($this > $total, $this, $total), 0.0)");
        List<Observation> totals = mapped.all(Observation.class, "cumulative-blood-loss");
        Quantity last = totals.get(totals.size() - 1).getValueQuantity();
        assertThat(last.getValue()).isEqualByComparingTo(increments.add(drape));
    }

    @Test
    void everyTotalOfIncrementsIsTheTotalBeforeAndTheReading() {
        List<Observation> readings = List.of(100, 230, 45).stream()
                .map(BigDecimal::valueOf)
                .map(it -> new BloodLoss(LossMethod.SUCTION, LossReading.INCREMENT, null, it, null, null, null, null))
                .collect(Collectors.collectingAndThen(
                        Collectors.toList(), it -> Mapped.of(it.toArray(BedsideEvent[]::new))))
                .all(Observation.class, "cumulative-blood-loss");
        assertThat(readings.stream().map(it -> it.getValueQuantity().getValue()))
                .usingElementComparator(BigDecimal::compareTo)
                .containsExactly(new BigDecimal("100"), new BigDecimal("330"), new BigDecimal("375"));
    }

    @Test
    void theChainOfTotalsGoesBackToTheFirstReading() {
        List<Observation> totals = mapped.all(Observation.class, "cumulative-blood-loss");
        for (int i = 1; i < totals.size(); i++) {
            assertThat(totals.get(i).getDerivedFrom()).hasSize(2);
            assertThat(mapped.at(totals.get(i).getDerivedFrom().get(0))).isSameAs(totals.get(i - 1));
            assertThat(Mapped.profileOf(mapped.at(totals.get(i).getDerivedFrom().get(1))))
                    .isEqualTo("blood-loss-of-reading");
        }
        assertThat(totals.get(0).getDerivedFrom()).hasSize(1);
    }

    private List<Observation> withValue(String profile) {
        return mapped.all(Observation.class, profile).stream()
                .filter(Observation::hasValue)
                .toList();
    }

    @Test
    void lossOfAReadingIsTheVolumeLessOtherFluid() {
        Observation reading =
                mapped.all(Observation.class, "blood-loss-of-reading").get(0);
        BigDecimal again = paths.decimal(
                reading,
                "derivedFrom.resolve().component.where(code.coding.code = 'blood-loss-volume-read').value.value"
                        + " - derivedFrom.resolve().component.where(code.coding.code = 'blood-loss-other-fluid')"
                        + ".value.value");
        assertThat(reading.getValueQuantity().getValue()).isEqualByComparingTo(again);
    }

    @Test
    void shockIndexIsPulseBySystolicPressure() {
        List<Observation> indices = mapped.all(Observation.class, "shock-index").stream()
                .filter(Observation::hasValue)
                .toList();
        assertThat(indices).isNotEmpty().allSatisfy(it -> {
            BigDecimal again = paths.decimal(
                    it,
                    "derivedFrom.resolve().where(code.coding.code = '8867-4').value.value"
                            + " / derivedFrom.resolve().component.where(code.coding.code = '8480-6').value.value");
            assertThat(it.getValueQuantity().getValue()).isEqualByComparingTo(again.setScale(2, RoundingMode.HALF_UP));
        });
    }

    @Test
    void meanAndPulsePressureComeFromThePanel() {
        String systolic = "derivedFrom.resolve().component.where(code.coding.code = '8480-6').value.value";
        String diastolic = "derivedFrom.resolve().component.where(code.coding.code = '8462-4').value.value";
        assertThat(withValue("mean-arterial-pressure")).isNotEmpty().allSatisfy(it -> {
            BigDecimal again = paths.decimal(it, "(" + systolic + " + 2 * " + diastolic + ") / 3");
            assertThat(it.getValueQuantity().getValue()).isEqualByComparingTo(again.setScale(1, RoundingMode.HALF_UP));
        });
        assertThat(withValue("pulse-pressure"))
                .isNotEmpty()
                .allSatisfy(it -> assertThat(it.getValueQuantity().getValue())
                        .isEqualByComparingTo(paths.decimal(it, systolic + " - " + diastolic)));
    }

    @Test
    void volumeInTheBalloonIsTheVolumeBeforeAndTheStep() {
        List<Observation> volumes = mapped.all(Observation.class, "tamponade-chamber-volume");
        assertThat(volumes.stream().map(it -> it.getValueQuantity().getValue()))
                .usingElementComparator(BigDecimal::compareTo)
                .containsExactly(
                        new BigDecimal("250"), new BigDecimal("350"), new BigDecimal("0"), new BigDecimal("260"));
        BigDecimal again = paths.decimal(
                volumes.get(1),
                "derivedFrom.resolve().where(method.exists()).value.value"
                        + " + derivedFrom.resolve().where(code.coding.code = 'balloon-fluid-in').value.value");
        assertThat(volumes.get(1).getValueQuantity().getValue()).isEqualByComparingTo(again);
    }

    @Test
    void modifiedShockIndexIsPulseByMeanPressure() {
        assertThat(withValue("modified-shock-index")).isNotEmpty().allSatisfy(it -> {
            Observation mean = (Observation) mapped.at(it.getDerivedFrom().get(1));
            String sum = "derivedFrom.resolve().component.where(code.coding.code = '8480-6').value.value"
                    + " + 2 * derivedFrom.resolve().component.where(code.coding.code = '8462-4').value.value";
            BigDecimal unrounded = paths.decimal(mean, "(" + sum + ") / 3");
            BigDecimal pulse =
                    paths.decimal(it, "derivedFrom.resolve().where(code.coding.code = '8867-4').value.value");
            assertThat(it.getValueQuantity().getValue())
                    .isEqualByComparingTo(pulse.divide(unrounded, 2, RoundingMode.HALF_UP));
        });
    }

    @Test
    void fluidBalanceIsWhatWentInLessWhatCameOut() {
        String in =
                "derivedFrom.resolve().where(code.coding.code = 'fluids-in').value.value.aggregate($this + $total, 0.0)";
        String out =
                "derivedFrom.resolve().where(code.coding.code = 'fluids-out').value.value.aggregate($this + $total, 0.0)";
        assertThat(withValue("fluid-balance"))
                .isNotEmpty()
                .allSatisfy(it -> assertThat(it.getValueQuantity().getValue())
                        .isEqualByComparingTo(
                                paths.decimal(it, in + " - " + out).setScale(0, RoundingMode.HALF_UP)));
    }

    @Test
    void shareLostIsTheTotalByTheBloodVolume() {
        String total = "derivedFrom.resolve().where(code.coding.code = 'cumulative-blood-loss').value.value";
        String volume = "derivedFrom.resolve().where(code.coding.code = 'estimated-blood-volume').value.value";
        assertThat(withValue("share-of-blood-volume-lost"))
                .isNotEmpty()
                .allSatisfy(it -> assertThat(it.getValueQuantity().getValue())
                        .isEqualByComparingTo(paths.decimal(it, "100 * " + total + " / " + volume)
                                .setScale(1, RoundingMode.HALF_UP)));
    }

    @Test
    void urineRateIsTheVolumeByTheHoursOfItsPeriod() {
        Observation rate = mapped.observation("urine-rate");
        Observation collection = (Observation) mapped.at(rate.getDerivedFromFirstRep());
        Duration time = Duration.between(
                collection.getEffectivePeriod().getStart().toInstant(),
                collection.getEffectivePeriod().getEnd().toInstant());
        BigDecimal again = collection
                .getValueQuantity()
                .getValue()
                .multiply(BigDecimal.valueOf(3600))
                .divide(BigDecimal.valueOf(time.toSeconds()), 1, RoundingMode.HALF_UP);
        assertThat(rate.getValueQuantity().getValue()).isEqualByComparingTo(again);
    }

    @Test
    void auditIntervalsAreTheTimesBetweenTheResources() {
        Observation interval = mapped.observation("referral-to-departure");
        Observation recognition = mapped.observation("recognition-to-insertion");
        assertThat(interval.getValueQuantity().getValue()).isEqualByComparingTo("5");
        Procedure tamponade = mapped.all(Procedure.class, "tamponade").get(0);
        Condition haemorrhage = mapped.one(Condition.class, "postpartum-haemorrhage");
        long minutes = Duration.between(
                        haemorrhage.getOnsetDateTimeType().getValue().toInstant(),
                        tamponade.getPerformedPeriod().getStart().toInstant())
                .toMinutes();
        assertThat(recognition.getValueQuantity().getValue()).isEqualByComparingTo(BigDecimal.valueOf(minutes));
    }

    @Test
    void timeInSituIsThePeriodOfItsTamponade() {
        assertThat(mapped.all(Observation.class, "time-in-situ")).isNotEmpty().allSatisfy(time -> {
            Period period = ((Procedure) mapped.at(time.getPartOfFirstRep())).getPerformedPeriod();
            // A balloon that is still in place at the end of the case was watched up to there.
            Date end = period.hasEnd()
                    ? period.getEnd()
                    : time.getEffectiveDateTimeType().getValue();
            long minutes = Duration.between(period.getStart().toInstant(), end.toInstant())
                    .toMinutes();
            assertThat(time.getValueQuantity().getValue()).isEqualByComparingTo(BigDecimal.valueOf(minutes));
        });
    }
}
