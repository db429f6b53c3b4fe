package example.tamponade.core.event;

/**
 * What happened at the bedside: one record for each type of the event vocabulary.
 *
 * <p>Units are fixed and stand in the component names. A component that may be absent is nullable; nothing is coded as
 * a magic number. Whether a value is plausible is not asked here but by the care protocol's limits.
 */
public sealed interface BedsideEvent
        permits CaseOpened,
                Birth,
                HaemorrhageRecognised,
                HelpCalled,
                Manoeuvre,
                MedicineGiven,
                Infusion,
                BloodProductGiven,
                BloodLoss,
                VitalSigns,
                UterusChecked,
                BleedingChecked,
                SymptomsChecked,
                Urine,
                Laboratory,
                TamponadePrepared,
                TamponadeInserted,
                BalloonFilled,
                BalloonDrained,
                TamponadePositionChecked,
                TamponadeRemoved,
                Referral,
                Outcome,
                Note,
                ReadinessChecked {}
