package example.tamponade.core.casefile;

import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.event.TamponadePrepared;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;

/** What is wrong with a device before it is filled: how it was made ready, its date, and whether it is known to lie right. */
final class PreparationFold {

    private PreparationFold() {}

    static FoldStep prepared(TamponadePrepared prepared, FoldStep step) {
        List<String> missing = new ArrayList<>();
        missing(prepared.assembled(), "assembled", missing);
        missing(prepared.leakTested(), "leak-tested", missing);
        missing(prepared.antiseptic(), "antiseptic", missing);
        missing(prepared.glovesSterile(), "sterile gloves", missing);
        if (missing.isEmpty()) {
            step.end(FlagKind.PREPARATION_INCOMPLETE, "");
            return step;
        }
        step.restate(step.flag(
                FlagKind.PREPARATION_INCOMPLETE,
                "",
                Severity.MODERATE,
                step.at(),
                "The device was not made ready in full; missing: " + String.join(", ", missing) + ".",
                "assembled, leak-tested, antiseptic, sterile gloves",
                step.reading(Reading.EVENT)));
        return step;
    }

    private static void missing(boolean done, String what, List<String> missing) {
        if (!done) {
            missing.add(what);
        }
    }

    static void inserted(TamponadeInserted insertion, FoldStep step) {
        LocalDate lastDay = insertion.device().expiry();
        if (lastDay != null && step.at().toLocalDate().isAfter(lastDay)) {
            step.raise(
                    FlagKind.DEVICE_PAST_DATE,
                    "",
                    Severity.MODERATE,
                    "The device is past its last day of use.",
                    "last day of use: " + lastDay,
                    step.reading(Reading.TAMPONADE));
        }
        step.end(FlagKind.POSITION_NOT_CONFIRMED, "");
        if (!insertion.positionConfirmed()) {
            step.raise(
                    FlagKind.POSITION_NOT_CONFIRMED,
                    "",
                    Severity.MODERATE,
                    "The position of the balloon is not confirmed.",
                    "position confirmed at insertion, or checked afterwards",
                    step.reading(Reading.TAMPONADE));
        }
    }
}
