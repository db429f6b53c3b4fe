package example.tamponade.core.casefile;

import example.tamponade.core.derivation.HaemoglobinFall;
import example.tamponade.core.event.Analyte;
import example.tamponade.core.event.Laboratory;
import example.tamponade.core.protocol.LaboratoryLimit;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.util.List;

/** What laboratory results say by the limits of the protocol. A result that they cannot be compared with is in doubt. */
final class LaboratoryFold {

    private static final String WITH_SHOCK_INDEX = "lactate-with-shock-index";

    private LaboratoryFold() {}

    static FoldStep resulted(Laboratory result, FoldStep step) {
        List<LaboratoryLimit> limits = LaboratoryLimit.of(result.analyte());
        BigDecimal value = LaboratoryLimit.comparable(result);
        if (value != null) {
            limits.forEach(it -> judge(it, value, step));
            keep(result.analyte(), value, step);
            NearMissFold.resulted(result.analyte(), value, step);
        } else if (!limits.isEmpty()) {
            notJudged(result, limits.get(0).setting().unit(), step);
        }
        return step;
    }

    // Nobody may take the silence about such a result for a good one.
    private static void notJudged(Laboratory result, String unit, FoldStep step) {
        step.doubt(
                IssueKind.RESULT_NOT_JUDGED,
                Severity.MODERATE,
                "",
                "The result is in " + result.unit() + " and the limits of the protocol are in " + unit
                        + ": no warning looks at it. Judge it by hand, or record it in " + unit + ".",
                step.reading(Reading.LABORATORY));
    }

    private static void judge(LaboratoryLimit limit, BigDecimal value, FoldStep step) {
        BigDecimal edge = step.value(limit.setting());
        if (!limit.isBeyond(value, edge)) {
            step.end(FlagKind.LABORATORY_ABNORMAL, limit.code());
            return;
        }
        step.raise(
                FlagKind.LABORATORY_ABNORMAL,
                limit.code(),
                limit.isCritical() ? Severity.HIGH : Severity.LOW,
                limit.words(),
                limit.setting().code() + ": " + limit.relation() + " " + edge.toPlainString() + " "
                        + limit.setting().unit(),
                step.reading(Reading.LABORATORY));
    }

    private static void keep(Analyte analyte, BigDecimal value, FoldStep step) {
        switch (analyte) {
            case HAEMOGLOBIN -> haemoglobin(value, step);
            case LACTATE -> {
                step.laboratory = new LaboratoryState(
                        step.laboratory.firstHaemoglobin(), new LaboratoryState.Result(step.event, value));
                withShockIndex(step);
            }
            case HAEMATOCRIT, PLATELETS, FIBRINOGEN, CLOTTING_TIME -> {}
        }
    }

    private static void haemoglobin(BigDecimal gPerL, FoldStep step) {
        LaboratoryState.Result first = step.laboratory.firstHaemoglobin();
        if (first == null) {
            step.laboratory =
                    new LaboratoryState(new LaboratoryState.Result(step.event, gPerL), step.laboratory.lactate());
            return;
        }
        step.derive(
                FactKind.HAEMOGLOBIN_FALL,
                HaemoglobinFall.of(first.value(), gPerL),
                List.of(new FactInput.OfEvent(first.event(), Reading.LABORATORY), step.reading(Reading.LABORATORY)));
    }

    /** Asked at every lactate and at every shock index: the latest of both are read together. */
    static void withShockIndex(FoldStep step) {
        LaboratoryState.Result lactate = step.laboratory.lactate();
        VitalsState.Index index = step.vitals.lastIndex();
        if (lactate == null || index == null) {
            return;
        }
        boolean high = lactate.value().compareTo(step.value(Setting.LACTATE_HIGH_ABOVE)) > 0
                && index.value().compareTo(step.value(Setting.LACTATE_SHOCK_INDEX_ABOVE)) > 0;
        if (!high) {
            step.end(FlagKind.LABORATORY_ABNORMAL, WITH_SHOCK_INDEX);
            return;
        }
        step.raise(
                FlagKind.LABORATORY_ABNORMAL,
                WITH_SHOCK_INDEX,
                Severity.HIGH,
                "Lactate and shock index are high: massive transfusion is likely.",
                "lactate-high-above: > "
                        + step.value(Setting.LACTATE_HIGH_ABOVE).toPlainString()
                        + " mmol/L, with lactate-shock-index-above: > "
                        + step.value(Setting.LACTATE_SHOCK_INDEX_ABOVE).toPlainString(),
                new FactInput.OfEvent(lactate.event(), Reading.LABORATORY),
                new FactInput.OfFact(index.fact()));
    }
}
