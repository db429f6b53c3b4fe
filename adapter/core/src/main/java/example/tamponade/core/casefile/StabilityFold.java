package example.tamponade.core.casefile;

import example.tamponade.core.derivation.DeflationStart;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.Interval;
import example.tamponade.core.protocol.Phase;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * How long the mother has been stable under the balloon, and from when deflation may begin. That she was stable must be on
 * record: nobody having looked is no sign of it.
 */
final class StabilityFold {

    private StabilityFold() {}

    /** Bleeding is controlled: stability begins. */
    static void begin(FoldStep step) {
        step.stability = StabilityState.from(step.at());
        restart(step);
    }

    /** Something happened that is not stable: the time begins anew. */
    static void unstable(FoldStep step) {
        if (holding(step) != null) {
            step.stability = new StabilityState(step.stability.last(), StabilityState.NONE.gaps());
            end(step);
            restart(step);
        }
    }

    /** Stability is over: bleeding is not controlled, or deflation has begun. */
    static void end(FoldStep step) {
        step.end(FlagKind.DEFLATION_MAY_BEGIN, "");
        step.end(FlagKind.STABILITY_NOT_SHOWN, "");
    }

    /** These signs were looked at. */
    static void checked(List<StableSign> signs, FoldStep step) {
        Tamponade tamponade = holding(step);
        if (tamponade == null || signs.isEmpty()) {
            return;
        }
        boolean gap = false;
        for (StableSign sign : signs) {
            boolean late = lapse(sign, step).isBefore(step.at());
            gap |= late;
            step.stability =
                    late ? step.stability.checkedAfterAGap(sign, step.at()) : step.stability.checked(sign, step.at());
        }
        if (gap) {
            deriveEligible(tamponade, step);
        }
        judge(tamponade, step);
    }

    /** How long she has been stable at a check while the balloon holds. */
    static void measure(FoldStep step) {
        Tamponade tamponade = holding(step);
        if (tamponade == null) {
            return;
        }
        step.derive(
                FactKind.STABLE_TIME,
                Interval.between(stableSince(tamponade).toInstant(), step.at().toInstant()),
                List.of(
                        new FactInput.OfEvent(tamponade.insertion(), Reading.TAMPONADE),
                        step.reading(Reading.BLEEDING_AMOUNT)),
                null,
                tamponade.insertion());
    }

    /** Whether the balloon has been in place long enough, and the mother shown to be stable long enough, by now. */
    static boolean deflationMayBegin(Tamponade tamponade, FoldStep step) {
        return tamponade.course().stableSince() != null
                && !step.at().isBefore(shownFrom(tamponade, step))
                && !firstLapse(step).isBefore(step.at());
    }

    // While the balloon holds; null otherwise.
    private static @Nullable Tamponade holding(FoldStep step) {
        Tamponade tamponade = step.inPlace();
        boolean holds = tamponade != null
                && tamponade.phase() == Phase.BLEEDING_CONTROLLED
                && tamponade.course().stableSince() != null;
        return holds ? tamponade : null;
    }

    private static void restart(FoldStep step) {
        Tamponade tamponade = step.inPlace();
        if (tamponade != null) {
            Tamponade now = tamponade.with(tamponade.course().stable(step.at()));
            step.replaceLast(now);
            deriveEligible(now, step);
            judge(now, step);
        }
    }

    private static void deriveEligible(Tamponade tamponade, FoldStep step) {
        step.derive(
                FactKind.DEFLATION_ELIGIBLE_FROM,
                new FactValue.Time(shownFrom(tamponade, step)),
                List.of(new FactInput.OfEvent(tamponade.insertion(), Reading.TAMPONADE), step.reading(Reading.EVENT)),
                null,
                tamponade.insertion());
    }

    // Once she has been stable long enough, deflation may begin, or it is said that this was not shown; never neither.
    private static void judge(Tamponade tamponade, FoldStep step) {
        if (step.closed()) {
            return;
        }
        OffsetDateTime longEnough = stableLongEnough(tamponade, step);
        if (step.at().isBefore(longEnough)) {
            awaitLongEnough(longEnough, tamponade, step);
        } else if (deflationMayBegin(tamponade, step)) {
            step.end(FlagKind.STABILITY_NOT_SHOWN, "", FlagEndReason.SUPERSEDED);
            step.raise(mayBegin(step.at(), tamponade, step));
            awaitLapse(step);
        } else {
            step.end(FlagKind.DEFLATION_MAY_BEGIN, "", FlagEndReason.SUPERSEDED);
            step.restate(notShown(step.at(), step));
            awaitShown(tamponade, step);
        }
    }

    private static void awaitLongEnough(OffsetDateTime longEnough, Tamponade tamponade, FoldStep step) {
        boolean shown = shownFrom(tamponade, step).isEqual(longEnough)
                && !firstLapse(step).isBefore(longEnough);
        if (shown) {
            step.await(mayBegin(longEnough, tamponade, step));
            awaitLapse(step);
        } else {
            step.callOff(FlagKind.DEFLATION_MAY_BEGIN, "");
            step.await(notShown(longEnough, step));
        }
    }

    private static void awaitLapse(FoldStep step) {
        step.await(notShown(firstLapse(step), step));
        step.replaces(FlagKind.STABILITY_NOT_SHOWN, FlagKind.DEFLATION_MAY_BEGIN);
    }

    private static void awaitShown(Tamponade tamponade, FoldStep step) {
        OffsetDateTime shown = shownFrom(tamponade, step);
        if (shown.isAfter(step.at()) && !firstLapse(step).isBefore(shown)) {
            step.await(mayBegin(shown, tamponade, step));
            step.replaces(FlagKind.DEFLATION_MAY_BEGIN, FlagKind.STABILITY_NOT_SHOWN);
            awaitLapse(step);
        }
    }

    private static Flag mayBegin(OffsetDateTime from, Tamponade tamponade, FoldStep step) {
        return step.flag(
                FlagKind.DEFLATION_MAY_BEGIN,
                "",
                Severity.LOW,
                from,
                "The protocol's conditions for deflation are met.",
                conditions(step),
                new FactInput.OfEvent(tamponade.insertion(), Reading.TAMPONADE));
    }

    private static Flag notShown(OffsetDateTime from, FoldStep step) {
        String missing = Arrays.stream(StableSign.values())
                .filter(it -> !lapse(it, step).isAfter(from)
                        || shownAfterGap(it, step).isAfter(from))
                .map(StableSign::words)
                .collect(Collectors.joining(", "));
        return step.flag(
                FlagKind.STABILITY_NOT_SHOWN,
                "",
                Severity.MODERATE,
                from,
                "Whether she was stable cannot be judged, so deflation may not begin yet. Not looked at often enough: "
                        + missing + ".",
                conditions(step),
                step.reading(Reading.EVENT));
    }

    /** The conditions for deflation in words. */
    static String conditions(FoldStep step) {
        return "minimum-dwell: " + step.value(Setting.MINIMUM_DWELL).toPlainString() + " h and stable-interval: "
                + step.value(Setting.STABLE_INTERVAL).toPlainString() + " h, shown by checks with no gap beyond "
                + "stability-gap: " + step.value(Setting.STABILITY_GAP).toPlainString() + " intervals of the schedule";
    }

    private static OffsetDateTime stableLongEnough(Tamponade tamponade, FoldStep step) {
        return DeflationStart.of(
                        tamponade.insertedAt().toInstant(),
                        step.duration(Setting.MINIMUM_DWELL),
                        stableSince(tamponade).toInstant(),
                        step.duration(Setting.STABLE_INTERVAL))
                .atOffset(step.at().getOffset());
    }

    // What happened in a gap is not known: she counts as stable from its end.
    private static OffsetDateTime shownFrom(Tamponade tamponade, FoldStep step) {
        OffsetDateTime from = stableLongEnough(tamponade, step);
        for (StableSign sign : StableSign.values()) {
            from = later(from, shownAfterGap(sign, step));
        }
        return from;
    }

    private static OffsetDateTime shownAfterGap(StableSign sign, FoldStep step) {
        OffsetDateTime gap = step.stability.gaps().get(sign);
        return gap == null ? OffsetDateTime.MIN : gap.plus(step.duration(Setting.STABLE_INTERVAL));
    }

    private static OffsetDateTime firstLapse(FoldStep step) {
        return Arrays.stream(StableSign.values())
                .map(it -> lapse(it, step))
                .min(Comparator.comparing(OffsetDateTime::toInstant))
                .orElseThrow();
    }

    // Until when it need not be looked at again.
    private static OffsetDateTime lapse(StableSign sign, FoldStep step) {
        OffsetDateTime last = Objects.requireNonNull(step.stability.last().get(sign));
        OffsetDateTime since = step.checks.phaseSince();
        boolean early = since == null || last.isBefore(since);
        Duration every = step.protocol
                .schedule()
                .every(Phase.BLEEDING_CONTROLLED, early ? Duration.ZERO : Duration.between(since, last));
        BigDecimal seconds = step.value(Setting.STABILITY_GAP).multiply(BigDecimal.valueOf(every.toSeconds()));
        return last.plusSeconds(seconds.longValue());
    }

    private static OffsetDateTime stableSince(Tamponade tamponade) {
        return Objects.requireNonNull(tamponade.course().stableSince());
    }

    private static OffsetDateTime later(OffsetDateTime one, OffsetDateTime other) {
        return other.isAfter(one) ? other : one;
    }
}
