package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.event.VitalSigns;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Quantity;
import org.jspecify.annotations.Nullable;

/** What the receiving team reads when the mother is handed over. */
final class HandoverWords {

    private HandoverWords() {}

    /**
     * The hand-over in sentences: balloon, blood loss, last pulse and pressure, each with its time.
     *
     * @param first the sentence it begins with, without its full stop
     */
    static String of(String first, Recorded event) {
        Known known = Known.upTo(event);
        List<String> sentences = new ArrayList<>();
        sentences.add(first);
        add(sentences, balloon(known, event));
        add(sentences, value("Blood loss so far", known.last(FactKind.CUMULATIVE_BLOOD_LOSS)));
        CaseEntry pulse = known.last(VitalSigns.class, it -> it.pulse() != null);
        if (pulse != null && pulse.data() instanceof VitalSigns signs && signs.pulse() != null) {
            add(sentences, "Last pulse: " + signs.pulse().toPlainString() + " /min, " + at(pulse));
        }
        CaseEntry pressure = known.last(VitalSigns.class, BloodPressureMapper::isIn);
        if (pressure != null && pressure.data() instanceof VitalSigns signs) {
            add(sentences, "Last blood pressure: " + BloodPressureMapper.words(signs) + ", " + at(pressure));
        }
        return String.join(". ", sentences);
    }

    private static @Nullable String balloon(Known known, Recorded event) {
        CaseEntry insertion = known.last(TamponadeInserted.class, it -> true);
        if (insertion == null || !insertion.root().equals(event.tamponade)) {
            return null;
        }
        DerivedValue volume = known.last(FactKind.TAMPONADE_CHAMBER_VOLUME);
        boolean ofThis = volume != null && insertion.root().equals(volume.tamponade());
        String held = ofThis ? ", " + value("holding", volume) : "";
        return "Balloon in the uterus since " + at(insertion) + held;
    }

    private static @Nullable String value(String what, @Nullable DerivedValue value) {
        if (value == null || !(value.value() instanceof FactValue.Amount amount)) {
            return null;
        }
        Quantity quantity = Quantities.of(amount.rounded(), amount.unit());
        return what + " " + Quantities.words(quantity) + ", " + Times.words(value.at());
    }

    private static String at(CaseEntry entry) {
        return Times.words(entry.event().occurredAt());
    }

    private static void add(List<String> sentences, @Nullable String sentence) {
        if (sentence != null) {
            sentences.add(sentence);
        }
    }
}
