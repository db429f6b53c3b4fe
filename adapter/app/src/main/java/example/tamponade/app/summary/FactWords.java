package example.tamponade.app.summary;

import example.tamponade.core.derivation.AbsentReason;
import example.tamponade.core.derivation.FactValue;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Map;

/** How a derived value is written on the page. */
final class FactWords {

    private static final Map<String, String> UNITS =
            Map.of("mm[Hg]", "mmHg", "{ratio}", "", "[iU]", "IU", "{count}", "");
    static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm xxx", Locale.ROOT);

    static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

    private FactWords() {}

    static String of(FactValue value) {
        if (value instanceof FactValue.Amount amount) {
            String unit = UNITS.getOrDefault(amount.unit(), amount.unit());
            return (amount.rounded().toPlainString() + " " + unit).trim();
        }
        if (value instanceof FactValue.Time time) {
            return TIME.format(time.time());
        }
        if (value instanceof FactValue.Answer answer) {
            return answer.answer().code().replace('-', ' ');
        }
        if (value instanceof FactValue.Checklist checklist) {
            long done = checklist.items().stream().filter(FactValue.Item::done).count();
            return done + " of " + checklist.items().size() + " on record";
        }
        AbsentReason reason = ((FactValue.Missing) value).reason();
        return reason == AbsentReason.PRESSURE_UNRECORDABLE
                ? number(value)
                : "no value: " + reason.code().replace('-', ' ');
    }

    static String number(FactValue value) {
        if (value instanceof FactValue.Missing missing) {
            // The worst reading there is must not look like none.
            return missing.reason() == AbsentReason.PRESSURE_UNRECORDABLE
                    ? "pressure not recordable, top band"
                    : "no value";
        }
        return value instanceof FactValue.Amount amount ? amount.rounded().toPlainString() : of(value);
    }
}
