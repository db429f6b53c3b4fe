package example.tamponade.app.summary;

import example.tamponade.core.derivation.AbsentReason;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.MedicineGiven;
import example.tamponade.fhir.terms.Terms;
import java.util.Map;

/** How a derived value is written on the page. */
final class FactWords {

    private static final Map<String, String> UNITS =
            Map.of("mm[Hg]", "mmHg", "{ratio}", "", "[iU]", "IU", "ug", "micrograms", "{count}", "");
    static final String NOT_RECORDED = "not recorded";

    private FactWords() {}

    static String of(FactValue value, PageTimes times) {
        if (value instanceof FactValue.Amount amount) {
            String unit = UNITS.getOrDefault(amount.unit(), amount.unit());
            return (amount.rounded().toPlainString() + " " + unit).trim();
        }
        if (value instanceof FactValue.Time time) {
            return times.of(time.time());
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

    /** A medicine with its dose. */
    static String of(MedicineGiven given, Terms terms) {
        String substance =
                terms.display(terms.system("substance"), given.substance().code());
        String name = given.name() == null ? substance : substance + ", " + given.name();
        return name + ": " + given.dose().toPlainString() + " " + UNITS.getOrDefault(given.unit(), given.unit());
    }

    /** An amount without its unit, for a column that names it. */
    static String number(FactValue value) {
        if (value instanceof FactValue.Amount amount) {
            return amount.rounded().toPlainString();
        }
        // The worst reading there is must not look like none.
        return value instanceof FactValue.Missing missing && missing.reason() == AbsentReason.PRESSURE_UNRECORDABLE
                ? "pressure not recordable, top band"
                : "no value";
    }
}
