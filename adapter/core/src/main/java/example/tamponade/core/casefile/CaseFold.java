package example.tamponade.core.casefile;

import example.tamponade.core.event.BalloonDrained;
import example.tamponade.core.event.BalloonFilled;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.Birth;
import example.tamponade.core.event.BleedingChecked;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.BloodProductGiven;
import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.EventSource;
import example.tamponade.core.event.EventTable;
import example.tamponade.core.event.HaemorrhageRecognised;
import example.tamponade.core.event.HelpCalled;
import example.tamponade.core.event.Infusion;
import example.tamponade.core.event.Laboratory;
import example.tamponade.core.event.Manoeuvre;
import example.tamponade.core.event.MedicineGiven;
import example.tamponade.core.event.Note;
import example.tamponade.core.event.Outcome;
import example.tamponade.core.event.ReadinessChecked;
import example.tamponade.core.event.Referral;
import example.tamponade.core.event.SymptomsChecked;
import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.event.TamponadePositionChecked;
import example.tamponade.core.event.TamponadePrepared;
import example.tamponade.core.event.TamponadeRemoved;
import example.tamponade.core.event.Urine;
import example.tamponade.core.event.UterusChecked;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.core.protocol.Plausibility;
import example.tamponade.core.protocol.Setting;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.Set;
import java.util.function.Function;

/** What each type of event changes in a case: the index of the fold. */
final class CaseFold {

    private static final EventTable<FoldStep, FoldStep> EFFECTS = EventTable.<FoldStep, FoldStep>of()
            .on(CaseOpened.class, OpeningFold::opened)
            .on(Birth.class, OpeningFold::born)
            .on(HaemorrhageRecognised.class, OpeningFold::recognised)
            .on(HelpCalled.class, CaseFold::recordedOnly)
            .on(Manoeuvre.class, FirstResponseFold::manoeuvre)
            .on(MedicineGiven.class, MedicineFold::given)
            .on(Infusion.class, InfusionFold::set)
            .on(BloodProductGiven.class, FluidFold::bloodProduct)
            .on(BloodLoss.class, BloodLossFold::fold)
            .on(VitalSigns.class, VitalSignsFold::fold)
            .on(UterusChecked.class, UterusFold::checked)
            .on(BleedingChecked.class, CourseFold::bleedingChecked)
            .on(SymptomsChecked.class, SymptomFold::checked)
            .on(Urine.class, UrineFold::measured)
            .on(Laboratory.class, LaboratoryFold::resulted)
            .on(TamponadePrepared.class, PreparationFold::prepared)
            .on(TamponadeInserted.class, TamponadeFold::inserted)
            .on(BalloonFilled.class, BalloonFold::filled)
            .on(BalloonDrained.class, BalloonFold::drained)
            .on(TamponadePositionChecked.class, TamponadeFold::checked)
            .on(TamponadeRemoved.class, TamponadeFold::removed)
            .on(Referral.class, EndingFold::referral)
            .on(Outcome.class, EndingFold::outcome)
            .on(Note.class, CaseFold::recordedOnly)
            .on(ReadinessChecked.class, ReadinessFold::checked)
            .complete();

    // What is read or done at the bedside, which shows that somebody is there.
    private static final Set<Class<? extends BedsideEvent>> LOOKING_AFTER_HER = Set.of(
            Manoeuvre.class,
            MedicineGiven.class,
            Infusion.class,
            BloodProductGiven.class,
            BloodLoss.class,
            VitalSigns.class,
            UterusChecked.class,
            BleedingChecked.class,
            SymptomsChecked.class,
            Urine.class,
            TamponadeInserted.class,
            BalloonFilled.class,
            BalloonDrained.class,
            TamponadePositionChecked.class);

    private CaseFold() {}

    /**
     * Folds one standing event into the state before it.
     *
     * @param earlier when what was recorded or derived at the events before it was recorded, or could be known
     */
    static FoldStep fold(
            CaseEntry entry, CaseState before, CareProtocol protocol, Function<FactInput, OffsetDateTime> earlier) {
        EventEnvelope event = entry.event();
        BedsideEvent data = entry.data();
        FoldStep step = new FoldStep(entry.root(), event, protocol, before, earlier);
        if (LOOKING_AFTER_HER.contains(data.getClass())) {
            EndingFold.lookedAfter(step);
        }
        step.letTimePass();
        doubtValues(event, step);
        doubtClock(event, step);
        if (step.progress.closedAt() != null && event.occurredAt().isAfter(step.progress.closedAt())) {
            step.doubt(
                    IssueKind.AFTER_CLOSURE,
                    Severity.MODERATE,
                    "",
                    "the case was closed at " + step.progress.closedAt() + "; correct the time or the closure",
                    step.reading(Reading.EVENT));
        }
        return EFFECTS.handle(data, step);
    }

    private static FoldStep recordedOnly(BedsideEvent event, FoldStep step) {
        return step;
    }

    private static void doubtValues(EventEnvelope event, FoldStep step) {
        Plausibility.judge(event, step.protocol)
                .forEach(it -> step.doubt(
                        IssueKind.IMPLAUSIBLE_VALUE,
                        Severity.MODERATE,
                        it.path(),
                        it.path() + ": " + it.message(),
                        step.reading(Reading.EVENT)));
    }

    private static void doubtClock(EventEnvelope event, FoldStep step) {
        Duration lag = Duration.between(event.occurredAt(), event.recordedAt());
        boolean sendsAtOnce = event.source() == EventSource.MONITOR || event.source() == EventSource.MESSAGE;
        if (sendsAtOnce && lag.compareTo(step.protocol.duration(Setting.CLOCK_DOUBT_AFTER)) > 0) {
            step.doubt(
                    IssueKind.CLOCK_DOUBT,
                    Severity.MODERATE,
                    "",
                    "a sender that sends at once gave a time " + lag.toMinutes()
                            + " min before it was recorded; check its clock",
                    step.reading(Reading.EVENT));
        }
    }
}
