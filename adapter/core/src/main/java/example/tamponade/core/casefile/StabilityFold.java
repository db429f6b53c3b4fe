package example.tamponade.core.casefile;

import example.tamponade.core.derivation.DeflationStart;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.Interval;
import example.tamponade.core.protocol.Phase;
import example.tamponade.core.protocol.Setting;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;

/** How long the mother has been stable under the balloon, and from when deflation may begin. */
final class StabilityFold {

    private StabilityFold() {}

    /** Bleeding is controlled: stability begins. */
    static void begin(FoldStep step) {
        Tamponade tamponade = step.inPlace();
        if (tamponade != null) {
            step.replaceLast(tamponade.with(tamponade.course().stable(step.at())));
            awaitDeflation(step);
        }
    }

    /** Something happened that is not stable: the time begins anew. */
    static void unstable(FoldStep step) {
        Tamponade tamponade = step.inPlace();
        if (tamponade != null && tamponade.phase() == Phase.BLEEDING_CONTROLLED) {
            step.replaceLast(tamponade.with(tamponade.course().stable(step.at())));
            step.end(FlagKind.DEFLATION_MAY_BEGIN, "");
            awaitDeflation(step);
        }
    }

    /** Stability is over: bleeding is not controlled, or deflation has begun. */
    static void end(FoldStep step) {
        step.end(FlagKind.DEFLATION_MAY_BEGIN, "");
    }

    /** How long she has been stable at a check while the balloon holds. */
    static void measure(FoldStep step) {
        Tamponade tamponade = step.inPlace();
        if (tamponade == null
                || tamponade.phase() != Phase.BLEEDING_CONTROLLED
                || tamponade.course().stableSince() == null) {
            return;
        }
        step.derive(
                FactKind.STABLE_TIME,
                Interval.between(
                        tamponade.course().stableSince().toInstant(), step.at().toInstant()),
                List.of(
                        new FactInput.OfEvent(tamponade.insertion(), Reading.TAMPONADE),
                        step.reading(Reading.BLEEDING_AMOUNT)),
                null,
                tamponade.insertion());
    }

    /** The earliest time at which deflation may begin: in place long enough and stable long enough. */
    static OffsetDateTime deflationFrom(Tamponade tamponade, OffsetDateTime stableSince, FoldStep step) {
        Instant from = DeflationStart.of(
                tamponade.insertedAt().toInstant(),
                step.duration(Setting.MINIMUM_DWELL),
                stableSince.toInstant(),
                step.duration(Setting.STABLE_INTERVAL));
        return from.atOffset(step.at().getOffset());
    }

    private static void awaitDeflation(FoldStep step) {
        Tamponade tamponade = step.inPlace();
        if (tamponade == null) {
            return;
        }
        OffsetDateTime from = deflationFrom(tamponade, step.at(), step);
        FactKey fact = step.derive(
                FactKind.DEFLATION_ELIGIBLE_FROM,
                new FactValue.Time(from),
                List.of(new FactInput.OfEvent(tamponade.insertion(), Reading.TAMPONADE), step.reading(Reading.EVENT)),
                null,
                tamponade.insertion());
        step.await(
                FlagKind.DEFLATION_MAY_BEGIN,
                "",
                from,
                Severity.LOW,
                "The protocol's conditions for deflation are met.",
                "minimum-dwell: " + step.value(Setting.MINIMUM_DWELL).toPlainString() + " h and stable-interval: "
                        + step.value(Setting.STABLE_INTERVAL).toPlainString() + " h",
                new FactInput.OfFact(fact));
    }
}
