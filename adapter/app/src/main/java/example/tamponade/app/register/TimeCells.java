package example.tamponade.app.register;

import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.Facilities.Placing;
import example.tamponade.app.intake.ReasonCode;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Dates with a time of day as they are written in registers. Without an offset they are the facility's. */
final class TimeCells {

    private static final Pattern TIME = Pattern.compile("(?<date>[\\d./-]{6,10})[T ]\\s*"
            + "(?<hour>\\d{1,2}):(?<minute>\\d\\d)(?::(?<second>\\d\\d)(?:[.,](?<fraction>\\d{1,9}))?)?"
            + "\\s*(?<offset>Z|[+-]\\d\\d:?\\d\\d)?");

    private final Facilities facilities;

    TimeCells(Facilities facilities) {
        this.facilities = facilities;
    }

    /**
     * Reads a time; what comes out has its offset.
     *
     * @param facilityId the facility whose clock it was
     */
    CellValue read(String text, String facilityId) {
        Matcher parts = TIME.matcher(text);
        if (!parts.matches()) {
            return noTime(text);
        }
        CellValue date = DateCells.read(parts.group("date"), facilities.dateOrder(facilityId));
        if (date.refusal() != null) {
            return CellValue.refused(text, date.refusal());
        }
        try {
            LocalDateTime local = LocalDate.parse(date.text()).atTime(timeOfDay(parts));
            return parts.group("offset") == null
                    ? placed(text, facilities.place(facilityId, local))
                    : written(local.atOffset(ZoneOffset.of(parts.group("offset"))));
        } catch (DateTimeException e) {
            return noTime(text);
        }
    }

    private static LocalTime timeOfDay(Matcher parts) {
        String second = parts.group("second") == null ? "0" : parts.group("second");
        String fraction = parts.group("fraction") == null ? "" : parts.group("fraction");
        return LocalTime.of(
                Integer.parseInt(parts.group("hour")),
                Integer.parseInt(parts.group("minute")),
                Integer.parseInt(second),
                Integer.parseInt((fraction + "000000000").substring(0, 9)));
    }

    private static CellValue placed(String text, Placing placing) {
        if (placing instanceof Placing.NotPlaced not) {
            return CellValue.refused(text, not.reason(""));
        }
        return written(((Placing.Placed) placing).time());
    }

    private static CellValue written(OffsetDateTime time) {
        return CellValue.of(time.format(DateTimeFormatter.ISO_OFFSET_DATE_TIME));
    }

    private static CellValue noTime(String text) {
        return CellValue.refused(
                text,
                ReasonCode.INVALID_VALUE,
                "is not a date with a time of day",
                "write for example 2026-02-11 22:58 or 11.02.2026 22:58, or with the offset 2026-02-11T22:58:00+05:45");
    }
}
