package example.tamponade.conformance.fhirpath;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import org.jspecify.annotations.Nullable;

/** Dates and times of any precision. */
final class Times {

    private static final int DATE = 10;

    private Times() {}

    /** Which comes first; null when that is not known, as of a day and an hour of it. */
    static @Nullable Integer compare(String left, String right) {
        if (left.length() > DATE && right.length() > DATE) {
            try {
                return OffsetDateTime.parse(left)
                        .toInstant()
                        .compareTo(OffsetDateTime.parse(right).toInstant());
            } catch (DateTimeException e) {
                return null;
            }
        }
        int precision = Math.min(Math.min(left.length(), right.length()), DATE);
        int order = left.substring(0, precision).compareTo(right.substring(0, precision));
        return order != 0 || (left.length() == right.length() && isDate(left)) ? (Integer) order : null;
    }

    private static boolean isDate(String text) {
        try {
            return text.length() < DATE || LocalDate.parse(text) != null;
        } catch (DateTimeException e) {
            return false;
        }
    }
}
