package example.tamponade.app.summary;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.Analyte;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.BleedingChecked;
import example.tamponade.core.event.Coded;
import example.tamponade.core.event.Laboratory;
import example.tamponade.core.event.SymptomsChecked;
import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.event.UterusChecked;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.core.protocol.Setting;
import example.tamponade.fhir.terms.Terms;
import java.math.BigDecimal;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/** What is asked first at a bedside: the last of each reading as it was recorded, how old it is, and what comes next. */
final class LastReadings {

    private final CaseFile file;
    private final Trend trend;
    private final Terms terms;
    private final PageTimes times;

    LastReadings(CaseFile file, Trend trend, Terms terms, PageTimes times) {
        this.file = file;
        this.trend = trend;
        this.terms = terms;
        this.times = times;
    }

    List<CaseSummary.Line> lines() {
        List<CaseSummary.Line> lines = new ArrayList<>();
        lines.add(line("Pulse", true, signs(it -> amount(it.pulse(), "/min"))));
        lines.add(line("Blood pressure", true, signs(LastReadings::pressure)));
        lines.add(line("Respiratory rate", true, signs(it -> amount(it.respirations(), "/min"))));
        lines.add(line("Oxygen saturation", true, signs(it -> amount(it.oxygenSaturation(), "%"))));
        lines.add(line("Consciousness", true, signs(it -> coded("consciousness", it.consciousness()))));
        lines.add(line("Symptoms", true, it -> it instanceof SymptomsChecked check ? symptoms(check) : null));
        lines.add(line("Temperature", false, signs(it -> amount(it.temperatureC(), "°C"))));
        lines.add(line(
                "Bleeding",
                true,
                it -> it instanceof BleedingChecked check ? coded("bleeding-amount", check.amount()) : null));
        lines.add(line(
                "Uterine tone",
                true,
                it -> it instanceof UterusChecked check ? coded("uterine-tone", check.tone()) : null));
        lines.add(line("Haemoglobin", false, LastReadings::haemoglobin));
        lines.add(balloon());
        return lines;
    }

    private static Function<BedsideEvent, @Nullable String> signs(Function<VitalSigns, @Nullable String> reading) {
        return event -> event instanceof VitalSigns signs ? reading.apply(signs) : null;
    }

    private static @Nullable String amount(@Nullable BigDecimal value, String unit) {
        return value == null ? null : value.toPlainString() + " " + unit;
    }

    private @Nullable String coded(String system, @Nullable Coded value) {
        return value == null ? null : terms.display(terms.system(system), value.code());
    }

    private String symptoms(SymptomsChecked check) {
        List<String> words = new ArrayList<>();
        symptom("agitation-or-confusion", check.agitatedOrConfused(), words);
        symptom("headache", check.unremittingHeadache(), words);
        symptom("breathlessness", check.breathless(), words);
        return String.join(", ", words);
    }

    private void symptom(String item, @Nullable Boolean there, List<String> words) {
        if (there != null) {
            words.add(terms.display(terms.system("bedside-item"), item) + (there ? " yes" : " no"));
        }
    }

    private static @Nullable String pressure(VitalSigns signs) {
        if (Boolean.TRUE.equals(signs.pressureUnrecordable())) {
            return "not recordable";
        }
        BigDecimal diastolic = signs.diastolic();
        return signs.systolic() == null
                ? null
                : signs.systolic().toPlainString() + "/" + (diastolic == null ? "–" : diastolic.toPlainString())
                        + " mmHg";
    }

    private static @Nullable String haemoglobin(BedsideEvent event) {
        return event instanceof Laboratory result && result.analyte() == Analyte.HAEMOGLOBIN
                ? result.value().toPlainString() + " " + result.unit()
                : null;
    }

    private CaseSummary.Line line(String label, boolean ages, Function<BedsideEvent, @Nullable String> reading) {
        List<CaseEntry> entries = file.entries();
        for (int i = entries.size() - 1; i >= 0; i--) {
            String value = reading.apply(entries.get(i).data());
            if (value != null) {
                OffsetDateTime at = entries.get(i).event().occurredAt();
                return new CaseSummary.Line(label, value, times.of(at) + ", " + trend.age(at, ages));
            }
        }
        return new CaseSummary.Line(label, FactWords.NOT_RECORDED, "");
    }

    private CaseSummary.Line balloon() {
        OffsetDateTime inserted = file.entries().stream()
                .filter(it -> it.data() instanceof TamponadeInserted)
                .map(it -> it.event().occurredAt())
                .reduce((earlier, later) -> later)
                .orElse(null);
        if (inserted == null) {
            return new CaseSummary.Line("Balloon", "no insertion is on record", "");
        }
        if (trend.isOut(trend.now())) {
            return new CaseSummary.Line("Balloon", "removed", "");
        }
        OffsetDateTime outBy = inserted.plus(file.protocol().duration(Setting.MAXIMUM_DWELL));
        String volume = trend.balloon(trend.now());
        return new CaseSummary.Line(
                "Balloon",
                (volume.equals(Trend.NOTHING) ? "in place, volume " + FactWords.NOT_RECORDED : volume + " mL")
                        + ", in place since " + times.of(inserted),
                "out by " + times.of(outBy) + " (maximum-dwell)");
    }
}
