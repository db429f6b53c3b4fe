package example.tamponade.app.register;

import example.tamponade.app.intake.Facilities.DateOrder;
import example.tamponade.app.intake.ReasonCode;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Dates as they are written in registers: {@code 2026-02-11}, {@code 11.02.2026} and {@code 11/02/2026}. */
final class DateCells {

    private static final Pattern ISO = Pattern.compile("(?<year>\\d{4})-(?<month>\\d\\d)-(?<day>\\d\\d)");
    private static final Pattern POINTS = Pattern.compile("(?<day>\\d{1,2})\\.(?<month>\\d{1,2})\\.(?<year>\\d{4})");
    private static final Pattern DAY_FIRST = Pattern.compile("(?<day>\\d{1,2})/(?<month>\\d{1,2})/(?<year>\\d{4})");
    private static final Pattern MONTH_FIRST = Pattern.compile("(?<month>\\d{1,2})/(?<day>\\d{1,2})/(?<year>\\d{4})");

    private DateCells() {}

    /**
     * Reads a date; what comes out is written year, month, day.
     *
     * @param order how the facility writes dates with slashes; null when that is not known
     */
    static CellValue read(String text, @Nullable DateOrder order) {
        if (order == null && DAY_FIRST.matcher(text).matches()) {
            return CellValue.refused(
                    text,
                    ReasonCode.INVALID_VALUE,
                    "can be read with the day or with the month first",
                    "write the date as 2026-02-11 or 11.02.2026, or have the facility's date order set");
        }
        Pattern slashes = order == DateOrder.MONTH_DAY ? MONTH_FIRST : DAY_FIRST;
        for (Pattern pattern : new Pattern[] {ISO, POINTS, slashes}) {
            Matcher date = pattern.matcher(text);
            if (date.matches()) {
                return existing(text, date);
            }
        }
        return CellValue.refused(
                text,
                ReasonCode.INVALID_VALUE,
                "is not a date",
                "write it as 2026-02-11 or 11.02.2026, the year with four digits");
    }

    private static CellValue existing(String text, Matcher date) {
        try {
            LocalDate day = LocalDate.of(
                    Integer.parseInt(date.group("year")),
                    Integer.parseInt(date.group("month")),
                    Integer.parseInt(date.group("day")));
            return CellValue.of(day.toString());
        } catch (DateTimeException e) {
            return CellValue.refused(
                    text, ReasonCode.INVALID_VALUE, "is a date that does not exist", "write the date that was meant");
        }
    }
}
