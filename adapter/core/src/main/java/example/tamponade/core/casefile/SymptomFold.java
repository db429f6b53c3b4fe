package example.tamponade.core.casefile;

import example.tamponade.core.event.SymptomsChecked;
import org.jspecify.annotations.Nullable;

/**
 * Symptoms that are criteria of early warning. Headache and breathlessness are so in pre-eclampsia, of which the record does
 * not tell; they ask to look for it.
 *
 * <p>Source: Mhyre JM et al., Obstet Gynecol 2014;124:782, doi 10.1097/AOG.0000000000000480.
 */
final class SymptomFold {

    private SymptomFold() {}

    static FoldStep checked(SymptomsChecked check, FoldStep step) {
        criterion(
                "agitation-or-confusion",
                check.agitatedOrConfused(),
                Severity.HIGH,
                "The mother is agitated or confused.",
                "agitation or confusion",
                step);
        criterion(
                "headache",
                check.unremittingHeadache(),
                Severity.MODERATE,
                "The mother has a headache that does not go away: look for pre-eclampsia.",
                "unremitting headache, a criterion in pre-eclampsia",
                step);
        criterion(
                "breathlessness",
                check.breathless(),
                Severity.MODERATE,
                "The mother is short of breath: look for pre-eclampsia and too much fluid.",
                "breathlessness, a criterion in pre-eclampsia",
                step);
        if (Boolean.TRUE.equals(check.agitatedOrConfused())) {
            StabilityFold.unstable(step);
        }
        return step;
    }

    // What was not asked neither begins nor ends a warning.
    private static void criterion(
            String part, @Nullable Boolean met, Severity severity, String text, String rule, FoldStep step) {
        if (met == null) {
            return;
        }
        if (met) {
            step.raise(FlagKind.EARLY_WARNING, part, severity, text, rule, step.reading(Reading.SYMPTOMS));
            step.confirm(FlagKind.EARLY_WARNING, part, step.reading(Reading.SYMPTOMS));
        } else {
            step.end(FlagKind.EARLY_WARNING, part);
        }
    }
}
