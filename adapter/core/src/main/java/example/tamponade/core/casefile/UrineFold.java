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
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.pcollections.PVector;

/** How much urine comes, and for how long it has been too little. */
final class UrineFold {

    private UrineFold() {}

    static FoldStep measured(Urine urine, FoldStep step) {
        UrineCollection collection =
                new UrineCollection(urine.from().toInstant(), urine.to().toInstant(), urine.volumeMl());
        List<UrineCollection> counted = counted(collection, step);
        PVector<UrineState.Collection> recent = recent(counted, urine, step);
        FactValue rate = rate(collection, step);
        FactKey rateFact = step.derive(FactKind.URINE_RATE, rate, List.of(step.reading(Reading.URINE_OUTPUT)));
        FactValue perKg = perKg(collection, step);
        rolling(recent, urine.to(), step);
        OffsetDateTime lowSince = low(rate, Setting.OLIGURIA_BELOW, step.urine.lowSince(), urine.from(), step);
        OffsetDateTime lowPerKgSince =
                low(perKg, Setting.OLIGURIA_BELOW_PER_KG, step.urine.lowPerKgSince(), urine.from(), step);
        step.urine = new UrineState(recent, step.urine.covered().with(collection), lowSince, lowPerKgSince);
        if (rate instanceof FactValue.Amount) {
            oliguria("rate", lowSince, urine.to(), Setting.OLIGURIA_BELOW, Setting.URINE_WINDOW, rateFact, step);
            duration(lowSince, urine.to(), rateFact, step);
        }
        if (perKg instanceof FactValue.Amount) {
            oliguria(
                    "rate-per-kg",
                    lowPerKgSince,
                    urine.to(),
                    Setting.OLIGURIA_BELOW_PER_KG,
                    Setting.OLIGURIA_PER_KG_FOR,
                    rateFact,
                    step);
        }
        FluidFold.out(
                counted.stream().map(UrineCollection::volumeMl).reduce(BigDecimal.ZERO, BigDecimal::add),
                step.reading(Reading.URINE_OUTPUT),
                step);
        NearMissFold.urine(urine, step);
        return step;
    }

    // Time that an earlier collection covers is counted once.
    private static List<UrineCollection> counted(UrineCollection collection, FoldStep step) {
        if (step.urine.covered().overlaps(collection)) {
            step.doubt(
                    IssueKind.URINE_COLLECTIONS_OVERLAP,
                    Severity.MODERATE,
                    "",
                    "urine was collected over a time that another collection covers; that time is counted once."
                            + " Correct the begin or the end",
                    step.reading(Reading.URINE_OUTPUT));
        }
        return step.urine.covered().uncovered(collection);
    }

    private static FactValue rate(UrineCollection collection, FoldStep step) {
        return tooShort(collection.length(), step)
                ? new FactValue.Missing(AbsentReason.COLLECTION_TOO_SHORT)
                : UrineRate.perHour(collection.volumeMl(), collection.length());
    }

    private static boolean tooShort(Duration collected, FoldStep step) {
        return collected.isZero() || collected.compareTo(step.duration(Setting.URINE_COLLECTION_MINIMUM)) < 0;
    }

    private static @Nullable FactValue perKg(UrineCollection collection, FoldStep step) {
        FactInput reading = step.reading(Reading.URINE_OUTPUT);
        BigDecimal weightKg = step.progress.body().weightKg();
        if (weightKg == null) {
            step.deriveAbsent(FactKind.URINE_RATE_PER_KG, AbsentReason.WEIGHT_MISSING, reading);
            return null;
        }
        FactValue perKg = tooShort(collection.length(), step)
                ? new FactValue.Missing(AbsentReason.COLLECTION_TOO_SHORT)
                : UrineRate.perKilogramAndHour(collection.volumeMl(), collection.length(), weightKg);
        step.derive(FactKind.URINE_RATE_PER_KG, perKg, List.of(reading));
        return perKg;
    }

    private static PVector<UrineState.Collection> recent(List<UrineCollection> counted, Urine urine, FoldStep step) {
        Instant begin = urine.to().toInstant().minus(step.duration(Setting.URINE_WINDOW));
        PVector<UrineState.Collection> recent = step.urine.recent();
        for (UrineCollection part : counted) {
            recent = recent.plus(new UrineState.Collection(step.event, part));
        }
        while (recent.size() > 1 && !recent.get(0).urine().to().isAfter(begin)) {
            recent = recent.minus(0);
        }
        return recent;
    }

    private static void rolling(PVector<UrineState.Collection> recent, OffsetDateTime end, FoldStep step) {
        Instant begin = end.toInstant().minus(step.duration(Setting.URINE_WINDOW));
        List<UrineState.Collection> inside =
                recent.stream().filter(it -> it.urine().to().isAfter(begin)).toList();
        List<UrineCollection> collections =
                inside.stream().map(UrineState.Collection::urine).toList();
        Duration collected = UrineInWindow.collected(collections, end.toInstant(), step.duration(Setting.URINE_WINDOW));
        step.derive(
                FactKind.ROLLING_URINE_RATE,
                tooShort(collected, step)
                        ? new FactValue.Missing(AbsentReason.COLLECTION_TOO_SHORT)
                        : UrineInWindow.of(collections, end.toInstant(), step.duration(Setting.URINE_WINDOW)),
                inputs(inside, step));
    }

    private static List<FactInput> inputs(List<UrineState.Collection> inside, FoldStep step) {
        Stream<UUID> events = inside.isEmpty()
                ? Stream.of(step.event)
                : inside.stream().map(UrineState.Collection::event).distinct();
        return events.map(it -> (FactInput) new FactInput.OfEvent(it, Reading.URINE_OUTPUT))
                .toList();
    }

    private static @Nullable OffsetDateTime low(
            @Nullable FactValue rate,
            Setting below,
            @Nullable OffsetDateTime since,
            OffsetDateTime from,
            FoldStep step) {
        // A collection too short to give a rate shows nothing, neither that it is low nor that it is not.
        if (!(rate instanceof FactValue.Amount amount)) {
            return since;
        }
        boolean low = amount.value().compareTo(step.value(below)) < 0;
        return low ? since == null ? from : since : null;
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
