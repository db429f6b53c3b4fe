package example.tamponade.app.search;

import ca.uhn.fhir.parser.DataFormatException;
import java.util.Arrays;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.DateTimeType;

/**
 * A time that others are held against: FHIR R4, <a href="http://hl7.org/fhir/R4/search.html#prefix">Search, prefixes</a>.
 *
 * @param prefix in which relation they must stand
 * @param span what the time covers
 */
public record TimeLimit(Prefix prefix, TimeSpan span) {

    private static final Pattern TEXT = Pattern.compile("(?<prefix>[a-z]{2})?(?<time>[0-9].*)");

    /** The relations. */
    enum Prefix {
        EQ("{from} >= {low} and {to} <= {high}"),
        NE("({from} < {low} or {to} > {high})"),
        GT("{to} > {high}"),
        LT("{from} < {low}"),
        GE("{to} >= {low}"),
        LE("{from} <= {high}"),
        SA("{from} > {high}"),
        EB("{to} < {low}");

        private final String condition;

        Prefix(String condition) {
            this.condition = condition;
        }

        /** The condition on a span between two columns, with the ends of the limit as they are called there. */
        String condition(String from, String to, String low, String high) {
            return condition
                    .replace("{from}", from)
                    .replace("{to}", to)
                    .replace("{low}", low)
                    .replace("{high}", high);
        }
    }

    /**
     * Reads for example {@code ge2026-02-11T17:00:00Z}.
     *
     * @param place what it was given for
     * @throws SearchRefusedException when it is no time
     */
    static TimeLimit of(String place, String text) {
        Matcher matcher = TEXT.matcher(text);
        if (!matcher.matches()) {
            throw refused(place, text);
        }
        String prefix = matcher.group("prefix");
        try {
            // A space is what remains of a plus that was not escaped in an address.
            DateTimeType time = new DateTimeType(matcher.group("time").replace(' ', '+'));
            return new TimeLimit(prefix == null ? Prefix.EQ : prefix(place, prefix), TimeSpan.of(time));
        } catch (DataFormatException | IllegalArgumentException e) {
            throw refused(place, text);
        }
    }

    private static SearchRefusedException refused(String place, String text) {
        return new SearchRefusedException(
                place + ": '" + text + "' is no time; write for example 2026-02, 2026-02-11 or ge2026-02-11T17:00:00Z");
    }

    private static Prefix prefix(String place, String text) {
        return Arrays.stream(Prefix.values())
                .filter(it -> it.name().equalsIgnoreCase(text))
                .findFirst()
                .orElseThrow(() -> new SearchRefusedException(
                        place + ": no prefix '" + text + "'; use eq, ne, gt, lt, ge, le, sa or eb"));
    }
}
