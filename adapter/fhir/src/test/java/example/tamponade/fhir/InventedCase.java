package example.tamponade.fhir;

import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.Analyte;
import example.tamponade.core.event.Baby;
import example.tamponade.core.event.BabyOutcome;
import example.tamponade.core.event.BalloonDrained;
import example.tamponade.core.event.BalloonFilled;
import example.tamponade.core.event.BalloonPosition;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.Birth;
import example.tamponade.core.event.BirthMode;
import example.tamponade.core.event.BleedingAmount;
import example.tamponade.core.event.BleedingChecked;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.BloodProduct;
import example.tamponade.core.event.BloodProductGiven;
import example.tamponade.core.event.CaseId;
import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.Chamber;
import example.tamponade.core.event.Consciousness;
import example.tamponade.core.event.Consent;
import example.tamponade.core.event.DeviceKind;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.EventSource;
import example.tamponade.core.event.FillFluid;
import example.tamponade.core.event.Guidance;
import example.tamponade.core.event.HaemorrhageRecognised;
import example.tamponade.core.event.HelpCalled;
import example.tamponade.core.event.Identifier;
import example.tamponade.core.event.Infusion;
import example.tamponade.core.event.Laboratory;
import example.tamponade.core.event.LossMethod;
import example.tamponade.core.event.LossReading;
import example.tamponade.core.event.Manoeuvre;
import example.tamponade.core.event.ManoeuvreKind;
import example.tamponade.core.event.MedicineGiven;
import example.tamponade.core.event.Mother;
import example.tamponade.core.event.MotherOutcome;
import example.tamponade.core.event.Note;
import example.tamponade.core.event.Outcome;
import example.tamponade.core.event.PlacentaState;
import example.tamponade.core.event.ReadinessChecked;
import example.tamponade.core.event.RecognitionCriterion;
import example.tamponade.core.event.Recorder;
import example.tamponade.core.event.Referral;
import example.tamponade.core.event.ReferralReason;
import example.tamponade.core.event.ReferralStep;
import example.tamponade.core.event.RemovalReason;
import example.tamponade.core.event.Route;
import example.tamponade.core.event.StaffRole;
import example.tamponade.core.event.StoredSet;
import example.tamponade.core.event.Substance;
import example.tamponade.core.event.SuspectedCause;
import example.tamponade.core.event.SymptomsChecked;
import example.tamponade.core.event.TamponadeDevice;
import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.event.TamponadePositionChecked;
import example.tamponade.core.event.TamponadePrepared;
import example.tamponade.core.event.TamponadeRemoved;
import example.tamponade.core.event.Urine;
import example.tamponade.core.event.UterineTone;
import example.tamponade.core.event.UterusChecked;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.core.protocol.CareProtocol;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.UUID;

/**
 * One invented case with every type of event, the awkward ones included: a correction, a retraction, a pressure that could
 * not be heard, values hardly seen, fluid let out with no device in place, a late entry, a second insertion.
 */
public final class InventedCase {

    public static final String FACILITY = "hollowbrook-hp";
    public static final CaseId CASE_ID = new CaseId(FACILITY, "INV-2026-0007");
    public static final CareProtocol PROTOCOL = CareProtocol.standard();

    public static final OffsetDateTime BEGIN = OffsetDateTime.parse("2026-03-01T22:00:00+05:45");
    private static final Recorder MIDWIFE = new Recorder("hb-mw-01", StaffRole.MIDWIFE);
    private static final Recorder NURSE = new Recorder("hb-nu-02", StaffRole.NURSE);

    private final List<EventEnvelope> events = new ArrayList<>();
    private int next = 1;

    private InventedCase() {}

    /** Every event of the case, in the order they were recorded. */
    public static List<EventEnvelope> events() {
        InventedCase invented = new InventedCase();
        invented.birth();
        invented.bleeding();
        invented.firstInsertion();
        invented.awkward();
        invented.secondInsertion();
        invented.end();
        return List.copyOf(invented.events);
    }

    public static CaseFile file() {
        return file(events());
    }

    public static CaseFile file(List<EventEnvelope> events) {
        return CaseFile.of(CASE_ID, PROTOCOL, events);
    }

    /** These data as events of the case, one a minute, recorded two minutes later. */
    public static List<EventEnvelope> eventsOf(BedsideEvent... data) {
        InventedCase invented = new InventedCase();
        for (int i = 0; i < data.length; i++) {
            invented.add(i, data[i]);
        }
        return List.copyOf(invented.events);
    }

    /** An event that stands in place of another, recorded that many minutes after the case began. */
    public static EventEnvelope correctionOf(EventEnvelope event, int recordedMinute, BedsideEvent data) {
        return new EventEnvelope(
                id(1000 + recordedMinute),
                event.caseId(),
                event.facilityId(),
                event.occurredAt(),
                BEGIN.plusMinutes(recordedMinute),
                NURSE,
                null,
                event.eventId(),
                null,
                data);
    }

    /** An event that withdraws another, recorded a day later by someone else. */
    /** The event, recorded at another facility. */
    public static EventEnvelope at(String facilityId, EventEnvelope event) {
        return new EventEnvelope(
                event.eventId(),
                event.caseId(),
                facilityId,
                event.occurredAt(),
                event.recordedAt(),
                event.recordedBy(),
                event.source(),
                event.corrects(),
                event.retracts(),
                event.data());
    }

    public static EventEnvelope retractionOf(EventEnvelope event) {
        UUID id = new UUID(
                event.eventId().getMostSignificantBits() + 1, event.eventId().getLeastSignificantBits());
        OffsetDateTime at = event.recordedAt().plusDays(1);
        Recorder clerk = new Recorder("hb-cl-03", StaffRole.CLERK);
        return new EventEnvelope(
                id, event.caseId(), event.facilityId(), at, at, clerk, null, null, event.eventId(), null);
    }

    /** A digest that depends on the event alone. */
    public static String digest(UUID eventId) {
        return eventId.toString().replace("-", "").repeat(2);
    }

    /** Two readiness checks of the facility, the second of them correcting the first, and a third retracted. */
    public static List<EventEnvelope> facilityEvents() {
        InventedCase invented = new InventedCase();
        StoredSet set = new StoredSet(true, true, "INV-17", LocalDate.parse("2027-05-31"), true);
        UUID first = invented.facility(0, new ReadinessChecked(set, true, false, true, 90), null);
        invented.facility(1, new ReadinessChecked(set, true, true, true, null), first);
        UUID third = invented.facility(
                2,
                new ReadinessChecked(new StoredSet(false, false, null, null, false), false, false, false, null),
                null);
        invented.events.add(new EventEnvelope(
                id(invented.next++),
                null,
                FACILITY,
                BEGIN.plusHours(3),
                BEGIN.plusHours(3),
                NURSE,
                null,
                null,
                third,
                null));
        return List.copyOf(invented.events);
    }

    /** A case of about that many events: one set of vital signs and one reading of blood loss after another. */
    public static List<EventEnvelope> longCase(int size) {
        InventedCase invented = new InventedCase();
        invented.birth();
        invented.bleeding();
        invented.firstInsertion();
        int minute = 60;
        while (invented.events.size() < size) {
            invented.add(minute, signs(110 + minute % 30, 90 + minute % 25, 55));
            invented.add(minute + 1, drape(300 + minute));
            invented.add(minute + 2, new BleedingChecked(BleedingAmount.LIGHT, null));
            invented.add(minute + 3, new UterusChecked(UterineTone.FIRM, decimal("-1")));
            minute += 5;
        }
        return List.copyOf(invented.events);
    }

    /** A night in which bleeding is controlled and the balloon is deflated; what the awkward case does not have. */
    public static BedsideEvent[] calmNight() {
        return new BedsideEvent[] {
            new HaemorrhageRecognised(List.of(RecognitionCriterion.VOLUME), List.of(SuspectedCause.TONE)),
            new Laboratory(Analyte.HAEMOGLOBIN, decimal("11.2"), "g/dL"),
            new Manoeuvre(ManoeuvreKind.UTERINE_MASSAGE, BEGIN, null),
            new Manoeuvre(ManoeuvreKind.CAVITY_EXPLORED, BEGIN, null),
            new MedicineGiven(Substance.TRANEXAMIC_ACID, null, decimal("1"), "g", Route.INTRAVENOUS),
            new MedicineGiven(Substance.CRYSTALLOID, null, decimal("1"), "L", Route.INTRAVENOUS),
            new TamponadeInserted(
                    new TamponadeDevice(DeviceKind.PURPOSE_MADE_BALLOON, null, null, decimal("500")), null, true),
            new BalloonFilled(Chamber.TAMPONADE, decimal("260"), FillFluid.SALINE),
            new UterusChecked(UterineTone.FIRM, decimal("-2")),
            new MedicineGiven(Substance.CARBETOCIN, null, decimal("100"), "ug", Route.INTRAVENOUS),
            new MedicineGiven(Substance.ERGOMETRINE, null, decimal("0.2"), "mg", Route.INTRAMUSCULAR),
            new MedicineGiven(Substance.MISOPROSTOL, null, decimal("800"), "ug", Route.SUBLINGUAL),
            new BleedingChecked(BleedingAmount.LIGHT, null),
            new BleedingChecked(BleedingAmount.NONE, false),
            new UterusChecked(UterineTone.FIRM, decimal("-1")),
            new Laboratory(Analyte.HAEMOGLOBIN, decimal("9.4"), "g/dL"),
            new Laboratory(Analyte.LACTATE, decimal("3.2"), "mmol/L"),
            new Laboratory(Analyte.PLATELETS, decimal("40"), "10*9/L"),
            new Urine(decimal("10"), BEGIN.minusMinutes(60), BEGIN),
            new BalloonDrained(Chamber.TAMPONADE, decimal("30"), null)
        };
    }

    /** These readiness checks of the facility, one an hour. */
    public static List<EventEnvelope> eventsOfFacility(ReadinessChecked... checks) {
        InventedCase invented = new InventedCase();
        for (int i = 0; i < checks.length; i++) {
            invented.facility(i, checks[i], null);
        }
        return List.copyOf(invented.events);
    }

    /** Two readiness checks on two days. */
    public static List<EventEnvelope> twoDaysOfChecks() {
        InventedCase invented = new InventedCase();
        StoredSet set = new StoredSet(true, true, "INV-17", LocalDate.parse("2027-05-31"), true);
        invented.facility(0, new ReadinessChecked(set, true, true, true, 60), null);
        invented.facility(26, new ReadinessChecked(set, true, true, true, 60), null);
        return List.copyOf(invented.events);
    }

    private void birth() {
        Mother mother = new Mother(
                List.of(new Identifier("urn:register:hollowbrook", "7/2026")),
                "Wren Fallowfield",
                LocalDate.parse("1999-04-12"),
                null,
                decimal("61.5"),
                decimal("158"),
                3,
                2,
                decimal("39"));
        add(0, new CaseOpened(mother, BEGIN.minusMinutes(20), Consent.GIVEN));
        add(
                1,
                new Birth(
                        BEGIN.plusMinutes(1),
                        BirthMode.VAGINAL,
                        List.of(new Baby(BabyOutcome.LIVE_BORN), new Baby(BabyOutcome.LIVE_BORN)),
                        PlacentaState.COMPLETE));
        add(3, new MedicineGiven(Substance.OXYTOCIN, null, decimal("10"), "[iU]", Route.INTRAMUSCULAR));
        add(5, signs(96, 112, 70));
    }

    private void bleeding() {
        add(8, drape(350));
        add(
                9,
                new BloodLoss(
                        LossMethod.WEIGHED,
                        LossReading.INCREMENT,
                        "pads 1",
                        null,
                        decimal("240"),
                        decimal("60"),
                        null,
                        null));
        add(
                10,
                new HaemorrhageRecognised(
                        List.of(RecognitionCriterion.VOLUME, RecognitionCriterion.JUDGEMENT),
                        List.of(SuspectedCause.TONE, SuspectedCause.TISSUE)));
        add(11, new HelpCalled(List.of(StaffRole.DOCTOR, StaffRole.NURSE)));
        add(12, new Manoeuvre(ManoeuvreKind.UTERINE_MASSAGE, BEGIN.plusMinutes(12), BEGIN.plusMinutes(17)));
        add(13, new Manoeuvre(ManoeuvreKind.BLADDER_EMPTIED, BEGIN.plusMinutes(13), null));
        add(14, new MedicineGiven(Substance.TRANEXAMIC_ACID, null, decimal("1"), "g", Route.INTRAVENOUS));
        add(15, new MedicineGiven(Substance.OTHER, "Calcium gluconate", decimal("1000"), "mg", Route.INTRAVENOUS));
        add(16, new BloodLoss(LossMethod.VISUAL, LossReading.INCREMENT, null, decimal("200"), null, null, null, null));
        add(
                18,
                new VitalSigns(
                        decimal("128"),
                        decimal("88"),
                        decimal("52"),
                        null,
                        decimal("24"),
                        decimal("96"),
                        decimal("36.4"),
                        Consciousness.V));
        add(19, new UterusChecked(UterineTone.SOFT, decimal("2")));
        add(20, new BleedingChecked(BleedingAmount.HEAVY, false));
        add(20, new SymptomsChecked(true, false, null));
        add(21, new Laboratory(Analyte.HAEMOGLOBIN, decimal("8.9"), "g/dL"));
        add(22, new Laboratory(Analyte.HAEMOGLOBIN, decimal("5.5"), "mmol/L"));
        add(23, new Laboratory(Analyte.CLOTTING_TIME, decimal("9"), "min"));
        add(24, new Infusion(1, 1, Substance.OXYTOCIN, null, decimal("40"), "[iU]", decimal("500"), decimal("125")));
        add(24, new Infusion(2, 1, Substance.CRYSTALLOID, null, null, null, decimal("1000"), decimal("0")));
        add(24, new BloodProductGiven(BloodProduct.RED_CELLS, 2, decimal("560")));
        add(25, new Note("Second cannula placed; \"<warm>\" fluids & blankets."));
    }

    private void firstInsertion() {
        add(30, new TamponadePrepared(true, true, true, false, StaffRole.NURSE));
        add(
                32,
                new TamponadeInserted(
                        new TamponadeDevice(
                                DeviceKind.CONDOM_CATHETER, "INV-17", LocalDate.parse("2027-05-31"), decimal("500")),
                        Guidance.ULTRASOUND,
                        true));
        add(33, new BalloonFilled(Chamber.TAMPONADE, decimal("250"), FillFluid.SALINE));
        add(34, new BalloonFilled(Chamber.RETENTION, decimal("80"), FillFluid.STERILE_WATER));
        add(35, new BalloonFilled(Chamber.TAMPONADE, decimal("100"), null));
        add(36, new TamponadePositionChecked(BalloonPosition.IN_THE_UTERUS, Guidance.ULTRASOUND, true));
        add(40, new Urine(decimal("60"), BEGIN.minusMinutes(10), BEGIN.plusMinutes(40)));
    }

    private void awkward() {
        add(45, new VitalSigns(decimal("140"), null, null, true, null, null, null, null));
        add(46, new VitalSigns(decimal("235"), null, null, null, null, decimal("97"), null, null));
        UUID mistyped = add(50, signs(122, 59, 48));
        add(50, 52, signs(122, 95, 48), mistyped, null);
        UUID meantForAnother = add(55, new BleedingChecked(BleedingAmount.NONE, null));
        add(56, 57, null, null, meantForAnother);
        add(58, 240, new Note("Keyed in next morning."), null, null);
        add(60, new VitalSigns(null, decimal("92"), null, null, null, null, null, null));
        add(62, drape(300));
        add(65, new BalloonDrained(Chamber.TAMPONADE, decimal("350"), FillFluid.SALINE));
        add(66, new BalloonDrained(Chamber.RETENTION, decimal("90"), null));
        add(70, new TamponadeRemoved(RemovalReason.FAILED));
        add(71, new BalloonDrained(Chamber.TAMPONADE, decimal("50"), null));
        add(72, new TamponadePositionChecked(BalloonPosition.EXPELLED, Guidance.HAND, false));
    }

    private void secondInsertion() {
        add(
                80,
                new TamponadeInserted(
                        new TamponadeDevice(DeviceKind.PURPOSE_MADE_BALLOON, null, null, decimal("200")), null, false));
        add(81, new BalloonFilled(Chamber.TAMPONADE, decimal("260"), FillFluid.SALINE));
    }

    private void end() {
        add(90, referral(ReferralStep.DECIDED, ReferralReason.BLEEDING_NOT_CONTROLLED, null));
        add(95, referral(ReferralStep.DEPARTED, null, "ambulance"));
        add(150, referral(ReferralStep.ARRIVED, null, null));
        add(155, referral(ReferralStep.HANDED_OVER, null, null));
        add(160, new Outcome(MotherOutcome.REFERRED, true));
    }

    private static Referral referral(ReferralStep step, ReferralReason reason, String transport) {
        return new Referral(step, "Greatmere District Hospital", reason, true, transport);
    }

    private static VitalSigns signs(int pulse, int systolic, int diastolic) {
        return new VitalSigns(
                BigDecimal.valueOf(pulse),
                BigDecimal.valueOf(systolic),
                BigDecimal.valueOf(diastolic),
                null,
                null,
                null,
                null,
                null);
    }

    private static BloodLoss drape(int volumeMl) {
        return new BloodLoss(
                LossMethod.GRADUATED_DRAPE,
                LossReading.RUNNING_TOTAL,
                "drape 1",
                BigDecimal.valueOf(volumeMl),
                null,
                null,
                decimal("50"),
                false);
    }

    private UUID add(int minute, BedsideEvent data) {
        return add(minute, minute + 2, data, null, null);
    }

    private UUID add(int minute, int recordedMinute, BedsideEvent data, UUID corrects, UUID retracts) {
        UUID id = id(next++);
        Recorder recorder = minute % 2 == 0 ? MIDWIFE : NURSE;
        EventSource source = minute % 3 == 0 ? EventSource.FORM : null;
        events.add(new EventEnvelope(
                id,
                CASE_ID,
                FACILITY,
                BEGIN.plusMinutes(minute),
                BEGIN.plusMinutes(recordedMinute),
                recorder,
                source,
                corrects,
                retracts,
                data));
        return id;
    }

    private UUID facility(int hour, ReadinessChecked data, UUID corrects) {
        UUID id = id(900 + next++);
        OffsetDateTime at = BEGIN.plusHours(hour);
        events.add(new EventEnvelope(id, null, FACILITY, at, at, NURSE, EventSource.REGISTER, corrects, null, data));
        return id;
    }

    private static UUID id(int number) {
        return UUID.fromString(String.format(Locale.ROOT, "0a1b2c3d-4e5f-4a6b-8c7d-%012d", number));
    }

    private static BigDecimal decimal(String value) {
        return new BigDecimal(value);
    }
}
