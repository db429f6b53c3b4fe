package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.casefile.Flag;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.Analyte;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.Birth;
import example.tamponade.core.event.BleedingChecked;
import example.tamponade.core.event.BloodProductGiven;
import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.HaemorrhageRecognised;
import example.tamponade.core.event.Infusion;
import example.tamponade.core.event.Laboratory;
import example.tamponade.core.event.MedicineGiven;
import example.tamponade.core.event.Referral;
import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.event.Urine;
import example.tamponade.core.event.UterusChecked;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.core.protocol.Setting;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import org.hl7.fhir.r4.model.Quantity;
import org.jspecify.annotations.Nullable;

/**
 * What the receiving team reads when the mother leaves or is handed over: situation, background, assessment and what is
 * needed, as known at that time, each value with its time, and the caution. What was not recorded is named.
 */
final class HandoverNote {

    private static final int MOST_GIVEN = 30;

    private final Recorded event;
    private final Known known;
    private final List<String> missing = new ArrayList<>();

    private HandoverNote(Recorded event) {
        this.event = event;
        this.known = Known.upTo(event);
    }

    /**
     * The four parts and the caution, in order.
     *
     * @param first the sentence that the situation begins with, without its full stop
     */
    static List<String> of(String first, Referral referral, Recorded event) {
        HandoverNote note = new HandoverNote(event);
        return List.of(
                "Situation: " + note.situation(first, referral),
                "Background: " + note.background(),
                "Assessment: " + note.assessment(),
                "Needed: " + note.needed(),
                CaseMapper.CAUTION);
    }

    private String situation(String first, Referral referral) {
        List<String> sentences = new ArrayList<>(List.of(first));
        if (referral.reason() != null) {
            sentences.add("Reason: "
                    + event.answer("referral-reason", referral.reason()).getText());
        }
        String balloon = balloon();
        if (balloon != null) {
            sentences.add(balloon);
        }
        sentences.add(last("Bleeding", BleedingChecked.class, this::bleeding));
        sentences.add(value("Blood loss so far", FactKind.CUMULATIVE_BLOOD_LOSS));
        return sentences(sentences);
    }

    private @Nullable String balloon() {
        CaseEntry insertion = insertion();
        if (insertion == null) {
            return null;
        }
        DerivedValue volume = known.last(FactKind.TAMPONADE_CHAMBER_VOLUME);
        String held = volume != null && insertion.root().equals(volume.tamponade())
                ? words("holding", volume)
                : "volume not recorded";
        return "Balloon inserted " + at(insertion) + ", " + held;
    }

    private @Nullable CaseEntry insertion() {
        CaseEntry insertion = known.last(TamponadeInserted.class, it -> true);
        return insertion != null && insertion.root().equals(event.tamponade) ? insertion : null;
    }

    private String bleeding(BleedingChecked check) {
        String amount = event.answer("bleeding-amount", check.amount()).getText();
        return Boolean.TRUE.equals(check.otherSource()) ? amount + ", from elsewhere too" : amount;
    }

    private String background() {
        List<String> sentences = new ArrayList<>();
        sentences.add(last(
                "Birth",
                Birth.class,
                it -> event.answer("placenta-state", it.placentaDelivered()).getText()));
        sentences.add(last("Haemorrhage recognised", HaemorrhageRecognised.class, it -> ""));
        List<String> given = known.inOrder().stream()
                .map(this::given)
                .filter(it -> !it.isEmpty())
                .toList();
        sentences.add(given.isEmpty() ? "Medicines and blood: none on record" : "Given: " + latest(given));
        return sentences(sentences);
    }

    // A note is written at every step of a referral: its length must not grow with the case.
    private static String latest(List<String> given) {
        int earlier = Math.max(0, given.size() - MOST_GIVEN);
        return (earlier == 0 ? "" : earlier + " earlier ones are in the record; ")
                + String.join("; ", given.subList(earlier, given.size()));
    }

    private String given(CaseEntry entry) {
        BedsideEvent data = entry.data();
        if (data instanceof MedicineGiven medicine) {
            String name = medicine.name() == null
                    ? event.answer("substance", medicine.substance()).getText()
                    : medicine.name();
            return name + " " + Quantities.words(Quantities.of(medicine.dose(), medicine.unit())) + ", "
                    + event.answer("route", medicine.route()).getText() + ", " + at(entry);
        }
        if (data instanceof Infusion infusion) {
            String name = infusion.name() == null
                    ? event.answer("substance", infusion.substance()).getText()
                    : infusion.name();
            return InfusionMapper.words(name, infusion) + ", " + at(entry);
        }
        return data instanceof BloodProductGiven product
                ? event.answer("blood-product", product.product()).getText() + " " + product.units() + " units, "
                        + at(entry)
                : "";
    }

    private String assessment() {
        List<String> sentences = new ArrayList<>();
        sentences.add(sign("Pulse", it -> it.pulse() == null ? null : it.pulse().toPlainString() + " /min"));
        sentences.add(
                sign("Blood pressure", it -> BloodPressureMapper.isIn(it) ? BloodPressureMapper.words(it) : null));
        sentences.add(value("Shock index", FactKind.SHOCK_INDEX));
        sentences.add(sign(
                "Respirations",
                it -> it.respirations() == null ? null : it.respirations().toPlainString() + " /min"));
        sentences.add(sign(
                "Oxygen saturation",
                it -> it.oxygenSaturation() == null
                        ? null
                        : it.oxygenSaturation().toPlainString() + " %"));
        sentences.add(sign(
                "Consciousness",
                it -> it.consciousness() == null
                        ? null
                        : event.answer("consciousness", it.consciousness()).getText()));
        sentences.add(last(
                "Uterine tone",
                UterusChecked.class,
                it -> event.answer("uterine-tone", it.tone()).getText()));
        sentences.add(last(
                "Urine",
                Urine.class,
                it -> it.volumeMl().toPlainString() + " mL from " + Times.words(it.from()) + " to "
                        + Times.words(it.to())));
        sentences.add(haemoglobin());
        List<Flag> standing = known.standingWarnings();
        sentences.add(
                standing.isEmpty()
                        ? "Standing warnings: none on record"
                        : "Standing warnings: "
                                + String.join(
                                        " ",
                                        standing.stream()
                                                .map(HandoverNote::warning)
                                                .toList()));
        return sentences(sentences);
    }

    private static String warning(Flag flag) {
        return "[" + flag.severity().code() + "] " + flag.text()
                + (flag.isToBeRepeated() ? " Repeat to confirm. Since " : " Since ") + Times.words(flag.start()) + ".";
    }

    private String haemoglobin() {
        CaseEntry entry = known.last(Laboratory.class, it -> it.analyte() == Analyte.HAEMOGLOBIN);
        return entry != null && entry.data() instanceof Laboratory result
                ? "Haemoglobin: " + Quantities.words(Quantities.of(result.value(), result.unit())) + ", " + at(entry)
                : missing("Haemoglobin");
    }

    private String needed() {
        List<String> sentences = new ArrayList<>();
        CaseEntry insertion = insertion();
        if (insertion != null) {
            sentences.add("Balloon out by "
                    + Times.words(insertion
                            .event()
                            .occurredAt()
                            .plus(event.scope.file.protocol().duration(Setting.MAXIMUM_DWELL)))
                    + " (maximum-dwell)");
            due("Deflation not before", FactKind.DEFLATION_ELIGIBLE_FROM, sentences);
        }
        due("Second tranexamic acid not before", FactKind.ANTIFIBRINOLYTIC_SECOND_DOSE_FROM, sentences);
        due("Next check of pulse and pressure due", FactKind.NEXT_CHECK_DUE, sentences);
        if (known.last(CaseOpened.class, it -> it.mother().weightKg() != null) == null) {
            missing("Weight");
        }
        sentences.add("Not recorded: " + (missing.isEmpty() ? "nothing of the above" : String.join(", ", missing)));
        return sentences(sentences);
    }

    private void due(String what, FactKind kind, List<String> sentences) {
        DerivedValue value = known.last(kind);
        if (value != null && value.value() instanceof FactValue.Time time) {
            sentences.add(what + " " + Times.words(time.time()));
        }
    }

    private String sign(String what, Function<VitalSigns, @Nullable String> words) {
        CaseEntry entry = known.last(VitalSigns.class, it -> words.apply(it) != null);
        return entry != null && entry.data() instanceof VitalSigns signs
                ? what + ": " + words.apply(signs) + ", " + at(entry)
                : missing(what);
    }

    private <T extends BedsideEvent> String last(String what, Class<T> type, Function<T, String> words) {
        CaseEntry entry = known.last(type, it -> true);
        if (entry == null) {
            return missing(what);
        }
        String value = words.apply(type.cast(entry.data()));
        return what + ": " + (value.isEmpty() ? "" : value + ", ") + at(entry);
    }

    private String value(String what, FactKind kind) {
        DerivedValue value = known.last(kind);
        return value == null ? missing(what) : words(what, value);
    }

    private String words(String what, DerivedValue value) {
        String amount = value.value() instanceof FactValue.Missing missingValue
                ? "no value: "
                        + Absent.of(missingValue.reason(), event.scope.terms).getText()
                : Quantities.words(amount((FactValue.Amount) value.value()));
        return what + " " + amount + ", " + Times.words(value.at());
    }

    private static Quantity amount(FactValue.Amount value) {
        return Quantities.of(value.rounded(), value.unit());
    }

    private String missing(String what) {
        missing.add(what.toLowerCase(Locale.ROOT));
        return "";
    }

    private static String at(CaseEntry entry) {
        return Times.words(entry.event().occurredAt());
    }

    private static String sentences(List<String> sentences) {
        return String.join(". ", sentences.stream().filter(it -> !it.isEmpty()).toList());
    }
}
