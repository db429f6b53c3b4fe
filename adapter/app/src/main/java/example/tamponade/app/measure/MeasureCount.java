package example.tamponade.app.measure;

import java.util.List;
import java.util.OptionalDouble;

/**
 * How many cases a measure counts.
 *
 * @param rule the measure
 * @param cases how many cases there are
 * @param asked the keys of those in the denominator
 * @param met the keys of those in the numerator
 */
public record MeasureCount(MeasureRule rule, int cases, List<String> asked, List<String> met) {

    /** The share of those asked that met it; nothing where none was asked. */
    public OptionalDouble share() {
        return asked.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of((double) met.size() / asked.size());
    }
}
