package example.tamponade.core.casefile;

import example.tamponade.core.derivation.DaysSinceCheck;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.ReadinessShare;
import example.tamponade.core.event.ReadinessChecked;
import example.tamponade.core.event.StoredSet;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.pcollections.PVector;

/** How often a facility was ready. Its checks are folded like a case of their own. */
final class ReadinessFold {

    private ReadinessFold() {}

    static FoldStep checked(ReadinessChecked check, FoldStep step) {
        LocalDate today = step.at().toLocalDate();
        int window = step.value(Setting.READINESS_WINDOW).intValueExact();
        int speaksFor = step.value(Setting.READINESS_SPEAKS_FOR).intValueExact();
        if (!step.readiness.isEmpty()) {
            LocalDate before = step.readiness.get(step.readiness.size() - 1).on();
            derive(FactKind.DAYS_SINCE_READINESS_CHECK, DaysSinceCheck.of(before, today), step);
        }
        step.readiness = step.readiness.plus(found(check.tamponadeSet(), today));
        LocalDate begin = today.minusDays(window - 1L);
        step.readiness = reachingInto(begin.minusDays(speaksFor), step.readiness);
        flagSet(check.tamponadeSet(), today, step);
        flagTheatre(check.theatreReachableMinutes(), step);
        LocalDate first = step.readiness.get(0).on();
        derive(
                FactKind.READINESS_SHARE,
                ReadinessShare.of(step.readiness, first.isAfter(begin) ? first : begin, today, speaksFor),
                step);
        return step;
    }

    private static void flagSet(StoredSet set, LocalDate today, FoldStep step) {
        Lacking missing = new Lacking()
                .unless(set.present(), "not there")
                .unless(!set.present() || set.complete(), "not complete")
                .unless(!set.present() || set.placeReachable(), "not within reach")
                .unless(set.expiry() == null || !today.isAfter(set.expiry()), "past its date");
        if (missing.isNothing()) {
            step.end(FlagKind.TAMPONADE_SET_NOT_READY, "");
            return;
        }
        step.restate(step.flag(
                FlagKind.TAMPONADE_SET_NOT_READY,
                "",
                Severity.MODERATE,
                step.at(),
                "The tamponade set is " + missing.words() + ".",
                "a set that is there, complete, in date and within reach",
                step.reading(Reading.EVENT)));
    }

    private static void flagTheatre(@Nullable Integer minutes, FoldStep step) {
        BigDecimal limit = step.value(Setting.THEATRE_WITHIN);
        if (minutes != null && BigDecimal.valueOf(minutes).compareTo(limit) <= 0) {
            step.end(FlagKind.THEATRE_TOO_FAR, "");
        } else {
            step.raise(
                    FlagKind.THEATRE_TOO_FAR,
                    "",
                    Severity.MODERATE,
                    "No operating theatre can be reached in the time that the plan allows.",
                    "theatre-within: " + limit.toPlainString() + " min",
                    step.reading(Reading.EVENT));
        }
    }

    private static void derive(FactKind kind, FactValue value, FoldStep step) {
        step.derive(kind, value, List.of(step.reading(Reading.EVENT)));
    }

    private static ReadinessShare.Checked found(StoredSet set, LocalDate today) {
        boolean ready = set.present() && set.complete() && set.placeReachable();
        return new ReadinessShare.Checked(today, ready, set.expiry());
    }

    private static PVector<ReadinessShare.Checked> reachingInto(
            LocalDate begin, PVector<ReadinessShare.Checked> checks) {
        PVector<ReadinessShare.Checked> kept = checks;
        while (kept.size() > 1 && kept.get(1).on().isBefore(begin)) {
            kept = kept.minus(0);
        }
        return kept;
    }
}
