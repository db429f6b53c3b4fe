package example.tamponade.core.casefile;

import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;

/** How much is lost soon after an insertion, by which a balloon that fails shows early. */
final class InsertionLossFold {

    private static final List<Setting> LIMITS =
            List.of(Setting.LOSS_AFTER_INSERTION_ALERT, Setting.LOSS_AFTER_INSERTION_INVASIVE);

    private InsertionLossFold() {}

    /** What is lost counts from here. */
    static void inserted(FoldStep step) {
        step.loss = step.loss.atInsertion();
    }

    /** A total was reached; what is lost exactly at the end of the time belongs to it. */
    static void lost(FactKey total, FoldStep step) {
        Tamponade tamponade = step.inPlace();
        boolean soon = tamponade != null
                && Duration.between(tamponade.insertedAt(), step.at())
                                .compareTo(step.duration(Setting.LOSS_AFTER_INSERTION_WITHIN))
                        <= 0;
        if (!soon || step.closed()) {
            return;
        }
        BigDecimal lostMl = step.loss.total().subtract(step.loss.totalAtInsertion());
        above(lostMl, Setting.LOSS_AFTER_INSERTION_ALERT, Severity.MODERATE, "the balloon may fail", total, step);
        above(lostMl, Setting.LOSS_AFTER_INSERTION_INVASIVE, Severity.HIGH, "consider an invasive step", total, step);
    }

    private static void above(
            BigDecimal lostMl, Setting limit, Severity severity, String meaning, FactKey total, FoldStep step) {
        if (lostMl.compareTo(step.value(limit)) > 0) {
            String millilitres = step.value(limit).toPlainString() + " mL";
            step.raise(
                    FlagKind.LOSS_AFTER_INSERTION,
                    limit.code(),
                    severity,
                    "More than " + millilitres + " was lost soon after the insertion: " + meaning + ".",
                    limit.code() + ": > " + millilitres + " within "
                            + step.value(Setting.LOSS_AFTER_INSERTION_WITHIN).toPlainString() + " min",
                    new FactInput.OfFact(total));
        }
    }

    /** Bleeding is seen to be no longer active. */
    static void quiet(FoldStep step) {
        LIMITS.forEach(it -> step.end(FlagKind.LOSS_AFTER_INSERTION, it.code()));
    }

    /** The device is out. */
    static void out(FoldStep step) {
        LIMITS.forEach(it -> step.end(FlagKind.LOSS_AFTER_INSERTION, it.code(), FlagEndReason.NO_LONGER_OBSERVED));
    }
}
