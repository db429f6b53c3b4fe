package example.tamponade.core.casefile;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.derivation.TimeInSitu;
import example.tamponade.core.event.MotherOutcome;
import example.tamponade.core.event.Outcome;
import example.tamponade.core.event.Referral;
import java.util.List;

/** How a case ends: sent on, or with an outcome. */
final class EndingFold {

    private EndingFold() {}

    static FoldStep referral(Referral referral, FoldStep step) {
        switch (referral.step()) {
            case DECIDED -> Milestones.reach(Milestone.REFERRAL_DECIDED, step);
            case DEPARTED -> {
                Milestones.reach(Milestone.DEPARTED, step);
                step.end(FlagKind.CONTROL_DEADLINE_MISSED, "", FlagEndReason.NO_LONGER_OBSERVED);
            }
            case ARRIVED -> Milestones.reach(Milestone.ARRIVED, step);
            case HANDED_OVER -> {
                Milestones.reach(Milestone.HANDED_OVER, step);
                if (step.inPlace() == null) {
                    step.end(FlagKind.BALLOON_DISPLACED, "", FlagEndReason.NO_LONGER_OBSERVED);
                }
                CheckFold.sumUp(step);
                leave(step);
            }
        }
        return step;
    }

    static FoldStep outcome(Outcome outcome, FoldStep step) {
        step.derive(
                FactKind.OUTCOME_CLASS,
                new FactValue.Answer(outcomeClass(outcome.mother(), step)),
                List.of(step.reading(Reading.EVENT)));
        if (outcome.closesCase() && !step.closed()) {
            CheckFold.sumUp(step);
        }
        if (outcome.closesCase() || outcome.mother() == MotherOutcome.DIED) {
            leave(step);
        }
        if (outcome.mother() == MotherOutcome.DIED) {
            step.end(FlagKind.DWELL_LIMIT_NEAR, "", FlagEndReason.NO_LONGER_OBSERVED);
            step.end(FlagKind.DWELL_LIMIT_PASSED, "", FlagEndReason.NO_LONGER_OBSERVED);
        }
        if (outcome.closesCase()) {
            step.progress = step.progress.closed(step.at());
            step.close();
        }
        return step;
    }

    // A balloon that is in place when she is handed over, dies or the case ends has been watched up to there.
    private static void leave(FoldStep step) {
        if (step.progress.unwatchedSince() != null) {
            return;
        }
        step.progress = step.progress.unwatched(step.at());
        step.callOff(FlagKind.DWELL_LIMIT_NEAR, "");
        step.callOff(FlagKind.DWELL_LIMIT_PASSED, "");
        Tamponade tamponade = step.inPlace();
        if (tamponade != null) {
            step.derive(
                    FactKind.TIME_IN_SITU,
                    TimeInSitu.between(
                            tamponade.insertedAt().toInstant(), step.at().toInstant()),
                    List.of(
                            new FactInput.OfEvent(tamponade.insertion(), Reading.TAMPONADE),
                            step.reading(Reading.EVENT)),
                    null,
                    tamponade.insertion());
        }
    }

    /** Somebody looks after her: a balloon that was handed over in place is watched on from when it went in. */
    static void lookedAfter(FoldStep step) {
        if (step.progress.unwatchedSince() == null) {
            return;
        }
        step.progress = step.progress.unwatched(null);
        Tamponade tamponade = step.inPlace();
        if (tamponade != null) {
            TamponadeFold.awaitDwellLimit(tamponade, step);
        }
    }

    private static OutcomeClass outcomeClass(MotherOutcome outcome, FoldStep step) {
        return switch (outcome) {
            case RECOVERED -> recovered(step);
            case REFERRED ->
                step.inPlace() == null ? OutcomeClass.REFERRED_WITHOUT_BALLOON : OutcomeClass.REFERRED_WITH_BALLOON;
            case SURGERY -> OutcomeClass.SURGERY;
            case DIED -> OutcomeClass.DIED;
        };
    }

    private static OutcomeClass recovered(FoldStep step) {
        if (step.tamponades.isEmpty()) {
            return OutcomeClass.SETTLED_WITHOUT_TAMPONADE;
        }
        return step.progress.mark(Milestone.CONTROLLED) == null
                ? OutcomeClass.SETTLED_AFTER_FAILED_TAMPONADE
                : OutcomeClass.SETTLED_WITH_TAMPONADE;
    }
}
