package example.tamponade.core.casefile;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.Interval;
import example.tamponade.core.event.BleedingChecked;
import example.tamponade.core.event.Chamber;
import example.tamponade.core.event.SuspectedCause;
import example.tamponade.core.protocol.Phase;
import example.tamponade.core.protocol.Setting;
import java.math.BigDecimal;
import java.time.OffsetDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Through which phases a tamponade goes, as bleeding is seen or not and fluid goes in and out. */
final class CourseFold {

    private CourseFold() {}

    static FoldStep bleedingChecked(BleedingChecked check, FoldStep step) {
        boolean active = check.amount().isActive();
        elsewhere(check.otherSource(), step);
        Tamponade tamponade = step.last();
        if (tamponade != null) {
            if (active) {
                bleeding(tamponade, step);
            } else {
                quiet(tamponade, step);
            }
        }
        AntifibrinolyticFold.bleeding(active, step);
        CheckFold.bleedingChecked(step);
        StabilityFold.checked(List.of(StableSign.BLEEDING), step);
        return step;
    }

    private static void elsewhere(@Nullable Boolean otherSource, FoldStep step) {
        if (Boolean.FALSE.equals(otherSource)) {
            step.progress = step.progress.excluded(SuspectedCause.TRAUMA);
            step.end(FlagKind.BLEEDING_FROM_ELSEWHERE, "");
        } else if (Boolean.TRUE.equals(otherSource)) {
            step.raise(
                    FlagKind.BLEEDING_FROM_ELSEWHERE,
                    "",
                    Severity.HIGH,
                    "Blood comes from elsewhere than the uterine cavity: a balloon does not stop it.",
                    "other source of bleeding seen, ends when none is seen",
                    step.reading(Reading.EVENT));
        }
    }

    private static void bleeding(Tamponade tamponade, FoldStep step) {
        Phase phase = tamponade.phase();
        switch (phase) {
            case NOT_INSERTED, BEING_FILLED -> goesOn(tamponade, step);
            case BLEEDING_CONTROLLED -> {
                flagBleeding(FlagKind.BLEEDING_RECURRED, "Bleeding came again under the balloon.", phase, step);
                enter(Phase.BEING_FILLED, step);
            }
            case DEFLATION, DEFLATED -> {
                flagBleeding(
                        FlagKind.BLEEDING_DURING_DEFLATION,
                        "Bleeding came during deflation: refill and refer.",
                        phase,
                        step);
                enter(Phase.BEING_FILLED, step);
            }
            case REMOVED ->
                flagBleeding(FlagKind.BLEEDING_AFTER_REMOVAL, "Bleeding came after the balloon was out.", phase, step);
        }
    }

    // The warning of the deadline ends when she leaves; bleeding that is seen on the way or behind it must not go
    // unsaid.
    private static void goesOn(Tamponade tamponade, FoldStep step) {
        OffsetDateTime deadline = tamponade.insertedAt().plus(step.duration(Setting.CONTROL_DEADLINE));
        boolean said = step.stands(FlagKind.CONTROL_DEADLINE_MISSED, "")
                || step.stands(FlagKind.BLEEDING_RECURRED, "")
                || step.stands(FlagKind.BLEEDING_DURING_DEFLATION, "");
        if (!said && step.at().isAfter(deadline)) {
            step.raise(
                    FlagKind.CONTROL_DEADLINE_MISSED,
                    "",
                    Severity.HIGH,
                    "Bleeding goes on under the balloon: look for another source and check the position.",
                    "control-deadline: active bleeding (moderate or heavy) more than "
                            + step.value(Setting.CONTROL_DEADLINE).toPlainString() + " min after insertion",
                    step.reading(Reading.BLEEDING_AMOUNT));
        }
    }

    private static void flagBleeding(FlagKind kind, String text, Phase phase, FoldStep step) {
        step.raise(
                kind,
                "",
                Severity.HIGH,
                text,
                "active bleeding (moderate or heavy) in phase " + phase.code(),
                step.reading(Reading.BLEEDING_AMOUNT));
    }

    private static void quiet(Tamponade tamponade, FoldStep step) {
        step.end(FlagKind.BLEEDING_RECURRED, "");
        step.end(FlagKind.BLEEDING_DURING_DEFLATION, "");
        step.end(FlagKind.BLEEDING_AFTER_REMOVAL, "");
        InsertionLossFold.quiet(step);
        switch (tamponade.phase()) {
            case BEING_FILLED -> controlled(tamponade, step);
            case BLEEDING_CONTROLLED -> StabilityFold.measure(step);
            case DEFLATION, DEFLATED ->
                step.replaceLast(tamponade.with(tamponade.course().quiet()));
            case NOT_INSERTED, REMOVED -> {}
        }
    }

    private static void controlled(Tamponade tamponade, FoldStep step) {
        Milestones.reach(Milestone.CONTROLLED, step);
        if (!tamponade.course().controlled()) {
            firstControlled(tamponade, step);
            step.replaceLast(tamponade.with(tamponade.course().underControl()));
        }
        step.end(FlagKind.CONTROL_DEADLINE_MISSED, "");
        enter(Phase.BLEEDING_CONTROLLED, step);
        StabilityFold.begin(step);
    }

    // Each insertion is measured for itself, be it of the same device again.
    private static void firstControlled(Tamponade tamponade, FoldStep step) {
        step.derive(
                FactKind.INSERTION_TO_CONTROL,
                Interval.between(tamponade.insertedAt().toInstant(), step.at().toInstant()),
                List.of(new FactInput.OfEvent(tamponade.insertion(), Reading.EVENT), step.reading(Reading.EVENT)));
        FactKey volume = tamponade.tamponadeFact();
        if (volume != null) {
            step.derive(
                    FactKind.VOLUME_AT_CONTROL,
                    new FactValue.Amount(tamponade.tamponadeMl(), "mL", BalloonFold.SCALE),
                    List.of(new FactInput.OfFact(volume), step.reading(Reading.BLEEDING_AMOUNT)),
                    null,
                    tamponade.insertion());
        }
    }

    static void filled(FoldStep step) {
        Tamponade tamponade = step.inPlace();
        if (tamponade == null) {
            return;
        }
        switch (tamponade.phase()) {
            case NOT_INSERTED, DEFLATION, DEFLATED -> enter(Phase.BEING_FILLED, step);
            case BEING_FILLED, BLEEDING_CONTROLLED, REMOVED -> {}
        }
    }

    static void drained(FoldStep step, BigDecimal volumeMl) {
        Tamponade tamponade = step.inPlace();
        if (tamponade == null) {
            return;
        }
        if (tamponade.phase() == Phase.BLEEDING_CONTROLLED) {
            DeflationFold.begin(tamponade, step);
            enter(Phase.DEFLATION, step);
        }
        DeflationFold.drained(volumeMl, step);
        Tamponade now = step.inPlace();
        if (now != null && now.phase() == Phase.DEFLATION && now.empty(Chamber.TAMPONADE)) {
            step.replaceLast(now.with(now.course().empty(step.at())));
            enter(Phase.DEFLATED, step);
        }
    }

    static void enter(Phase phase, FoldStep step) {
        Tamponade tamponade = step.last();
        if (tamponade == null || tamponade.phase() == phase) {
            return;
        }
        step.replaceLast(tamponade.with(tamponade.course().in(phase)));
        step.derive(
                FactKind.TAMPONADE_PHASE,
                new FactValue.Answer(phase),
                List.of(new FactInput.OfEvent(tamponade.insertion(), Reading.TAMPONADE), step.reading(Reading.EVENT)),
                null,
                tamponade.insertion());
        if (phase != Phase.BLEEDING_CONTROLLED) {
            StabilityFold.end(step);
        }
        if (phase == Phase.BEING_FILLED) {
            step.end(FlagKind.DEFLATION_TOO_EARLY, "");
            step.end(FlagKind.DEFLATION_STEP_TOO_LARGE, "");
        }
        CheckFold.enter(phase, step);
    }
}
