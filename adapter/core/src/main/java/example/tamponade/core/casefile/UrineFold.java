package example.tamponade.core.casefile;

import example.tamponade.core.derivation.AbsentReason;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.Interval;
import example.tamponade.core.derivation.UrineCollection;
import example.tamponade.core.derivation.UrineInWindow;
import example.tamponade.core.derivation.UrineRate;
import example.tamponade.core.event.Urine;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.pcollections.PVector;

/** How much urine comes, and for how long it has been too little. */
final class UrineFold {

    private UrineFold() {}

    static FoldStep measured(Urine urine, FoldStep step) {
        List<FactInput> inputs = List.of(step.reading(Reading.URINE_OUTPUT));
        Duration time = Duration.between(urine.from(), urine.to());
        FactValue rate = UrineRate.perHour(urine.volumeMl(), time);
        FactKey rateFact = step.derive(FactKind.URINE_RATE, rate, inputs);
        FactValue perKg = perKg(urine, time, step);
        if (perKg == null) {
            step.deriveAbsent(FactKind.URINE_RATE_PER_KG, AbsentReason.WEIGHT_MISSING, inputs.get(0));
        } else {
            step.derive(FactKind.URINE_RATE_PER_KG, perKg, inputs);
        }
        PVector<UrineState.Collection> recent = recent(urine, step);
        rolling(recent, urine.to(), step);
        OffsetDateTime lowSince = low(rate, Setting.OLIGURIA_BELOW, step.urine.lowSince(), urine.from(), step);
        OffsetDateTime lowPerKgSince =
                low(perKg, Setting.OLIGURIA_BELOW_PER_KG, step.urine.lowPerKgSince(), urine.from(), step);
        step.urine = new UrineState(recent, lowSince, lowPerKgSince);
        oliguria("rate", lowSince, urine.to(), Setting.OLIGURIA_BELOW, Setting.URINE_WINDOW, rateFact, step);
        oliguria(
                "rate-per-kg",
                lowPerKgSince,
                urine.to(),
                Setting.OLIGURIA_BELOW_PER_KG,
                Setting.OLIGURIA_PER_KG_FOR,
                rateFact,
                step);
        duration(lowSince, urine.to(), rateFact, step);
        FluidFold.out(urine.volumeMl(), step.reading(Reading.URINE_OUTPUT), step);
        return step;
    }

    private static @Nullable FactValue perKg(Urine urine, Duration time, FoldStep step) {
        BigDecimal weightKg = step.progress.body().weightKg();
        return weightKg == null ? null : UrineRate.perKilogramAndHour(urine.volumeMl(), time, weightKg);
    }

    private static PVector<UrineState.Collection> recent(Urine urine, FoldStep step) {
        Instant begin = urine.to().toInstant().minus(step.duration(Setting.URINE_WINDOW));
        PVector<UrineState.Collection> recent = step.urine
                .recent()
                .plus(new UrineState.Collection(
                        step.event,
                        new UrineCollection(urine.from().toInstant(), urine.to().toInstant(), urine.volumeMl())));
        while (recent.size() > 1 && !recent.get(0).urine().to().isAfter(begin)) {
            recent = recent.minus(0);
        }
        return recent;
    }

    private static void rolling(PVector<UrineState.Collection> recent, OffsetDateTime end, FoldStep step) {
        List<UrineCollection> collections =
                recent.stream().map(UrineState.Collection::urine).toList();
        step.derive(
                FactKind.ROLLING_URINE_RATE,
                UrineInWindow.of(collections, end.toInstant(), step.duration(Setting.URINE_WINDOW)),
                recent.stream()
                        .map(it -> (FactInput) new FactInput.OfEvent(it.event(), Reading.URINE_OUTPUT))
                        .toList());
    }

    private static @Nullable OffsetDateTime low(
            @Nullable FactValue rate,
            Setting below,
            @Nullable OffsetDateTime since,
            OffsetDateTime from,
            FoldStep step) {
        if (!(rate instanceof FactValue.Amount amount) || amount.value().compareTo(step.value(below)) >= 0) {
            return null;
        }
        return since == null ? from : since;
    }

    private static void oliguria(
            String part,
            @Nullable OffsetDateTime lowSince,
            OffsetDateTime to,
            Setting below,
            Setting lasting,
            FactKey rate,
            FoldStep step) {
        if (lowSince == null) {
            step.end(FlagKind.OLIGURIA, part);
        } else if (Duration.between(lowSince, to).compareTo(step.duration(lasting)) >= 0) {
            step.raise(
                    FlagKind.OLIGURIA,
                    part,
                    Severity.HIGH,
                    "Too little urine for too long.",
                    below.code() + ": < " + step.value(below).toPlainString() + " " + below.unit() + " for "
                            + step.value(lasting).toPlainString() + " h",
                    new FactInput.OfFact(rate));
        }
    }

    private static void duration(@Nullable OffsetDateTime lowSince, OffsetDateTime to, FactKey rate, FoldStep step) {
        if (lowSince != null) {
            step.derive(
                    FactKind.OLIGURIA_DURATION,
                    Interval.between(lowSince.toInstant(), to.toInstant()),
                    List.of(new FactInput.OfFact(rate)));
        }
    }
}
