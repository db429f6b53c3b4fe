package example.tamponade.core.casefile;

import example.tamponade.core.derivation.HaemoglobinFall;
import example.tamponade.core.event.Laboratory;
import example.tamponade.core.protocol.LaboratoryLimit;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What laboratory results say by the limits of the protocol. A result that no limit can be compared with says nothing. */
final class LaboratoryFold {

    private static final String WITH_SHOCK_INDEX = "lactate-with-shock-index";

    private LaboratoryFold() {}

    static FoldStep resulted(Laboratory result, FoldStep step) {
        for (LaboratoryLimit limit : LaboratoryLimit.of(result.analyte())) {
            BigDecimal value = limit.comparable(result);
            if (value != null) {
                judge(limit, value, step);
            }
        }
        keep(result, step);
        NearMissFold.resulted(result, step);
        return step;
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

    private static void keep(Laboratory result, FoldStep step) {
        switch (result.analyte()) {
            case HAEMOGLOBIN -> haemoglobin(LaboratoryLimit.ANAEMIA.comparable(result), step);
            case LACTATE -> {
                BigDecimal mmolPerL = LaboratoryLimit.LACTATE_RAISED.comparable(result);
                if (mmolPerL != null) {
                    step.laboratory = new LaboratoryState(
                            step.laboratory.firstHaemoglobin(), new LaboratoryState.Result(step.event, mmolPerL));
                    withShockIndex(step);
                }
            }
            case HAEMATOCRIT, PLATELETS, FIBRINOGEN, CLOTTING_TIME -> {}
        }
    }

    private static void haemoglobin(@Nullable BigDecimal gPerL, FoldStep step) {
        if (gPerL == null) {
            return;
        }
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
