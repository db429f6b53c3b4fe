package example.tamponade.core.casefile;

import example.tamponade.core.derivation.AbsentReason;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.FluidBalance;
import example.tamponade.core.event.BloodProductGiven;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/** What went in and what came out. */
final class FluidFold {

    private FluidFold() {}

    static FoldStep bloodProduct(BloodProductGiven product, FoldStep step) {
        in(product.volumeMl(), step);
        NearMissFold.bloodProduct(product, step);
        return step;
    }

    static void in(BigDecimal volumeMl, FoldStep step) {
        InfusionFold.runOn(step);
        add(volumeMl, step.reading(Reading.EVENT), step);
        balance(step);
    }

    /** Counts a volume in; the balance is for the caller to draw when all is counted. */
    static void add(BigDecimal volumeMl, FactInput by, FoldStep step) {
        BigDecimal totalMl = step.fluids.inMl().add(volumeMl);
        FactKey fact = step.derive(FactKind.FLUIDS_IN, amount(totalMl), FoldStep.continuing(step.fluids.inFact(), by));
        step.fluids = new FluidState(totalMl, step.fluids.outMl(), fact, step.fluids.outFact());
    }

    static void lost(BigDecimal volumeMl, FactKey total, FoldStep step) {
        out(volumeMl, new FactInput.OfFact(total), step);
    }

    static void out(BigDecimal volumeMl, FactInput input, FoldStep step) {
        InfusionFold.runOn(step);
        BigDecimal totalMl = step.fluids.outMl().add(volumeMl);
        FactKey fact =
                step.derive(FactKind.FLUIDS_OUT, amount(totalMl), FoldStep.continuing(step.fluids.outFact(), input));
        step.fluids = new FluidState(step.fluids.inMl(), totalMl, step.fluids.inFact(), fact);
        balance(step);
    }

    /** Draws the balance; that nothing was recorded does not say that nothing was given. */
    static void balance(FoldStep step) {
        if (step.fluids.inFact() == null) {
            step.deriveAbsent(
                    FactKind.FLUID_BALANCE,
                    AbsentReason.INTAKE_MISSING,
                    new FactInput.OfFact(Objects.requireNonNull(step.fluids.outFact())));
            return;
        }
        List<FactInput> inputs = new ArrayList<>();
        inputs.add(new FactInput.OfFact(step.fluids.inFact()));
        if (step.fluids.outFact() != null) {
            inputs.add(new FactInput.OfFact(step.fluids.outFact()));
        }
        step.derive(
                FactKind.FLUID_BALANCE,
                FluidBalance.of(List.of(step.fluids.inMl()), List.of(step.fluids.outMl())),
                inputs);
    }

    private static FactValue amount(BigDecimal millilitres) {
        return new FactValue.Amount(millilitres, "mL", 0);
    }
}
