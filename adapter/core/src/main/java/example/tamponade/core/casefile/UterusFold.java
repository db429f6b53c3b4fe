package example.tamponade.core.casefile;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.FundusChange;
import example.tamponade.core.event.UterusChecked;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;

/** Whether the fundus rises over a balloon in place. */
final class UterusFold {

    private UterusFold() {}

    static FoldStep checked(UterusChecked check, FoldStep step) {
        FirstResponseFold.examined(step);
        if (check.fundusCm() != null) {
            height(check.fundusCm(), step);
        }
        StabilityFold.checked(List.of(StableSign.FUNDUS), step);
        return step;
    }

    private static void height(BigDecimal heightCm, FoldStep step) {
        step.fundusCm = heightCm;
        Tamponade tamponade = step.inPlace();
        if (tamponade == null) {
            return;
        }
        BigDecimal before = tamponade.course().fundusAtInsertionCm();
        BigDecimal beginCm = base(heightCm, tamponade, step);
        step.replaceLast(tamponade.with(tamponade.course().fundus(beginCm, true)));
        if (before == null) {
            return;
        }
        FactValue.Amount change = FundusChange.of(beginCm, heightCm);
        FactKey fact = step.derive(
                FactKind.FUNDUS_CHANGE,
                change,
                List.of(step.reading(Reading.FUNDAL_HEIGHT)),
                null,
                tamponade.insertion());
        flag(change.value(), fact, step);
    }

    // The lowest of the last height before insertion and the first soon after it; later heights are compared with it.
    private static BigDecimal base(BigDecimal heightCm, Tamponade tamponade, FoldStep step) {
        BigDecimal before = tamponade.course().fundusAtInsertionCm();
        if (before == null) {
            return heightCm;
        }
        boolean soon =
                Duration.between(tamponade.insertedAt(), step.at()).compareTo(step.duration(Setting.FUNDUS_BASE_WITHIN))
                        <= 0;
        return soon && !tamponade.course().fundusFelt() ? before.min(heightCm) : before;
    }

    private static void flag(BigDecimal changeCm, FactKey fact, FoldStep step) {
        BigDecimal riseCm = step.value(Setting.FUNDUS_RISE);
        if (changeCm.compareTo(riseCm) >= 0) {
            step.raise(
                    FlagKind.FUNDUS_RISING,
                    "",
                    Severity.HIGH,
                    "The fundus is rising: blood may collect above the balloon.",
                    "fundus-rise: >= " + riseCm.toPlainString() + " cm since insertion",
                    new FactInput.OfFact(fact));
            StabilityFold.unstable(step);
        } else if (changeCm.compareTo(step.value(Setting.FUNDUS_RISE_ENDS)) <= 0) {
            step.end(FlagKind.FUNDUS_RISING, "");
        }
    }
}
