package example.tamponade.app.export;

import java.time.DateTimeException;
import java.time.YearMonth;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Cases of a facility, those that began in a month by the clock there, or both: a Group in FHIR's words.
 *
 * @param month the month in which the case began; null: any
 * @param facilityId the facility; null: any
 */
public record CaseGroup(@Nullable YearMonth month, @Nullable String facilityId) {

    /** All cases. */
    public static final CaseGroup ALL = new CaseGroup(null, null);

    private static final Pattern ID = Pattern.compile(
            "(month-(?<month>\\d{4}-\\d{2})(\\.(?=facility-)|$))?(facility-(?<facility>[A-Za-z0-9.-]+))?");

    /** Reads {@code month-2026-03}, {@code facility-fernglade-hp} or {@code month-2026-03.facility-fernglade-hp}. */
    public static @Nullable CaseGroup of(String id) {
        Matcher matcher = ID.matcher(id);
        if (id.isEmpty() || !matcher.matches()) {
            return null;
        }
        String month = matcher.group("month");
        try {
            return new CaseGroup(month == null ? null : YearMonth.parse(month), matcher.group("facility"));
        } catch (DateTimeException e) {
            return null;
        }
    }

    /** Its id in FHIR; empty for all cases. */
    public String id() {
        return (month == null ? "" : "month-" + month)
                + (month == null || facilityId == null ? "" : ".")
                + (facilityId == null ? "" : "facility-" + facilityId);
    }

    /** What it is, in words. */
    public String title() {
        return "Cases" + (facilityId == null ? "" : " of " + facilityId)
                + (month == null ? "" : " that began in " + month);
    }
}
