package example.tamponade.core.casefile;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.Interval;
import example.tamponade.core.derivation.NearMissCriterion;
import example.tamponade.core.derivation.Readings;
import example.tamponade.core.derivation.Sign;
import example.tamponade.core.derivation.UrineRate;
import example.tamponade.core.event.Analyte;
import example.tamponade.core.event.BloodProduct;
import example.tamponade.core.event.BloodProductGiven;
import example.tamponade.core.event.Consciousness;
import example.tamponade.core.event.Urine;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.pcollections.PSet;

/**
 * Which criteria of a maternal near miss were met so far; said anew whenever one is added. For the review of a case, not for
 * its care: nothing is warned of here.
 */
final class NearMissFold {

    // WHO 2011: what is low in the criteria that last; the criteria themselves stand in NearMissCriterion.
    private static final BigDecimal LOW_SYSTOLIC_BELOW = new BigDecimal(90);
    private static final BigDecimal LOW_SATURATION_BELOW = new BigDecimal(90);
    private static final BigDecimal LOW_URINE_BELOW_ML_PER_H = new BigDecimal(30);
    // Two collections of one run may lie this far apart: common practice, no source.
    private static final Duration ALLOWED_GAP = Duration.ofMinutes(5);

    private NearMissFold() {}

    static void signs(VitalSigns signs, FoldStep step) {
        NearMissState before = step.nearMiss;
        OffsetDateTime systolic = before.lowSystolicSince();
        if (signs.systolic() != null || Boolean.TRUE.equals(signs.pressureUnrecordable())) {
            systolic = run(signs.systolic() == null || isBelow(signs.systolic(), LOW_SYSTOLIC_BELOW), systolic, step);
        }
        OffsetDateTime saturation = before.lowSaturationSince();
        if (signs.oxygenSaturation() != null) {
            saturation = run(isBelow(signs.oxygenSaturation(), LOW_SATURATION_BELOW), saturation, step);
        }
        OffsetDateTime unconscious = before.unconsciousSince();
        if (signs.consciousness() != null) {
            unconscious = run(signs.consciousness() == Consciousness.U, unconscious, step);
        }
        step.nearMiss = before.signs(systolic, saturation, unconscious);
        Map<Sign, BigDecimal> values = new EnumMap<>(Sign.class);
        put(Sign.RESPIRATIONS, signs.respirations(), values);
        put(Sign.PULSE, signs.pulse(), values);
        put(Sign.FLUID_GIVEN, step.fluids.inMl(), values);
        if (signs.systolic() != null || Boolean.TRUE.equals(signs.pressureUnrecordable())) {
            put(Sign.LOW_SYSTOLIC_TIME, minutes(systolic, step.at()), values);
        }
        if (signs.oxygenSaturation() != null) {
            put(Sign.LOW_SATURATION_TIME, minutes(saturation, step.at()), values);
        }
        if (signs.consciousness() != null) {
            put(Sign.UNCONSCIOUS_TIME, minutes(unconscious, step.at()), values);
        }
        judge(values, Set.of(), step);
    }

    static void bloodProduct(BloodProductGiven product, FoldStep step) {
        if (product.product() == BloodProduct.RED_CELLS || product.product() == BloodProduct.WHOLE_BLOOD) {
            BigDecimal units = step.nearMiss.redCellUnits().add(BigDecimal.valueOf(product.units()));
            step.nearMiss = step.nearMiss.units(units);
            judge(Map.of(Sign.RED_CELL_UNITS, units), Set.of(), step);
        }
    }

    static void urine(Urine urine, FoldStep step) {
        FactValue rate = UrineRate.perHour(urine.volumeMl(), Duration.between(urine.from(), urine.to()));
        if (!(rate instanceof FactValue.Amount perHour)) {
            return;
        }
        OffsetDateTime until = step.nearMiss.urineUntil();
        boolean unbroken = until != null && !until.plus(ALLOWED_GAP).isBefore(urine.from());
        OffsetDateTime before = unbroken ? step.nearMiss.lowUrineSince() : null;
        OffsetDateTime since =
                isBelow(perHour.value(), LOW_URINE_BELOW_ML_PER_H) ? before == null ? urine.from() : before : null;
        step.nearMiss = step.nearMiss.urine(since, urine.to());
        Map<Sign, BigDecimal> values = new EnumMap<>(Sign.class);
        put(Sign.LOW_URINE_TIME, minutes(since, urine.to()), values);
        judge(values, Set.of(), step);
    }

    /** Looks at a result in the unit of the protocol's limits. */
    static void resulted(Analyte analyte, BigDecimal value, FoldStep step) {
        Map<Sign, BigDecimal> values = new EnumMap<>(Sign.class);
        Set<Sign> seen = EnumSet.noneOf(Sign.class);
        if (analyte == Analyte.LACTATE) {
            values.put(Sign.LACTATE, value);
        } else if (analyte == Analyte.PLATELETS) {
            values.put(Sign.PLATELETS, value);
        } else if (analyte == Analyte.CLOTTING_TIME && value.compareTo(step.value(Setting.CLOTTING_TIME_ABOVE)) > 0) {
            seen.add(Sign.FAILURE_TO_CLOT);
        }
        judge(values, seen, step);
    }

    private static void judge(Map<Sign, BigDecimal> values, Set<Sign> seen, FoldStep step) {
        PSet<NearMissCriterion> before = step.nearMiss.met();
        PSet<NearMissCriterion> now = before.plusAll(NearMissCriterion.met(new Readings(values, seen)));
        if (now.size() > before.size()) {
            step.nearMiss = step.nearMiss.met(now);
            step.derive(FactKind.NEAR_MISS_CRITERIA, checklist(now), List.of(step.reading(Reading.EVENT)));
        }
    }

    private static FactValue checklist(Collection<NearMissCriterion> met) {
        List<FactValue.Item> items = new ArrayList<>();
        Arrays.stream(NearMissCriterion.values()).forEach(it -> items.add(new FactValue.Item(it, met.contains(it))));
        return new FactValue.Checklist(items);
    }

    private static @Nullable OffsetDateTime run(boolean goesOn, @Nullable OffsetDateTime since, FoldStep step) {
        return goesOn ? since == null ? step.at() : since : null;
    }

    private static BigDecimal minutes(@Nullable OffsetDateTime since, OffsetDateTime until) {
        return since == null
                ? BigDecimal.ZERO
                : Interval.between(since.toInstant(), until.toInstant()).value();
    }

    private static boolean isBelow(BigDecimal value, BigDecimal limit) {
        return value.compareTo(limit) < 0;
    }

    private static void put(Sign sign, @Nullable BigDecimal value, Map<Sign, BigDecimal> values) {
        if (value != null) {
            values.put(sign, value);
        }
    }
}
