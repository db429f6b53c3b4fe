package example.tamponade.fhir.mapping;

import example.tamponade.core.event.BalloonDrained;
import example.tamponade.core.event.BalloonFilled;
import example.tamponade.core.event.Birth;
import example.tamponade.core.event.BleedingChecked;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.BloodProductGiven;
import example.tamponade.core.event.CaseOpened;
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
import java.util.List;
import org.hl7.fhir.r4.model.Resource;

/** What each type of event becomes: the index of the mapping. */
final class EventMappers {

    private static final EventTable<Recorded, List<Resource>> MAPPERS = EventTable.<Recorded, List<Resource>>of()
            .on(CaseOpened.class, OpeningMapper::map)
            .on(Birth.class, BirthMapper::map)
            .on(HaemorrhageRecognised.class, (data, event) -> HaemorrhageMapper.map(event.scope))
            .on(HelpCalled.class, HelpMapper::map)
            .on(Manoeuvre.class, ManoeuvreMapper::map)
            .on(MedicineGiven.class, MedicineMapper::medicine)
            .on(Infusion.class, InfusionMapper::map)
            .on(BloodProductGiven.class, MedicineMapper::bloodProduct)
            .on(BloodLoss.class, BloodLossMapper::map)
            .on(VitalSigns.class, VitalSignsMapper::map)
            .on(UterusChecked.class, ExaminationMapper::uterus)
            .on(BleedingChecked.class, ExaminationMapper::bleeding)
            .on(SymptomsChecked.class, ExaminationMapper::symptoms)
            .on(Urine.class, UrineMapper::map)
            .on(Laboratory.class, LaboratoryMapper::map)
            .on(TamponadePrepared.class, PreparationMapper::map)
            .on(TamponadeInserted.class, TamponadeMapper::map)
            .on(BalloonFilled.class, BalloonMapper::filled)
            .on(BalloonDrained.class, BalloonMapper::drained)
            .on(TamponadePositionChecked.class, PositionMapper::map)
            .on(TamponadeRemoved.class, RemovalMapper::map)
            .on(Referral.class, ReferralMapper::map)
            .on(Outcome.class, OutcomeMapper::outcome)
            .on(Note.class, OutcomeMapper::note)
            .on(ReadinessChecked.class, ReadinessMapper::map)
            .complete();

    private EventMappers() {}

    /** Everything that the event brought, in its present state. */
    static List<Resource> map(Recorded event) {
        return MAPPERS.handle(event.data(), event);
    }
}
