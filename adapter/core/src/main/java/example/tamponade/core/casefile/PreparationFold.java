package example.tamponade.core.casefile;

import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.event.TamponadePrepared;
import java.time.LocalDate;

/** What is wrong with a device before it is filled: how it was made ready, its date, and whether it is known to lie right. */
final class PreparationFold {

    private PreparationFold() {}

    static FoldStep prepared(TamponadePrepared prepared, FoldStep step) {
        Lacking missing = new Lacking()
                .unless(prepared.assembled(), "assembled")
                .unless(prepared.leakTested(), "leak-tested")
                .unless(prepared.antiseptic(), "antiseptic")
                .unless(prepared.glovesSterile(), "sterile gloves");
        if (missing.isNothing()) {
            step.end(FlagKind.PREPARATION_INCOMPLETE, "");
            return step;
        }
        step.restate(step.flag(
                FlagKind.PREPARATION_INCOMPLETE,
                "",
                Severity.MODERATE,
                step.at(),
                "The device was not made ready in full; missing: " + missing.words() + ".",
                "assembled, leak-tested, antiseptic, sterile gloves",
                step.reading(Reading.EVENT)));
        return step;
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
