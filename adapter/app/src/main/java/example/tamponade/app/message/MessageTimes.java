package example.tamponade.app.message;

import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.Facilities.Placing;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Reads HL7 times (TS, 2.A.77: {@code YYYYMMDDHHMM[SS[.S[S[S[S]]]]][+/-ZZZZ]}) and dates (DT). A time without offset has the
 * one of MSH-7, which holds throughout the message (2.15.9.7); when that has none either, the facility's zone tells it.
 */
final class MessageTimes {

    private static final Pattern TIME = Pattern.compile(
            "(\\d{4})(\\d{2})(\\d{2})(\\d{2})(\\d{2})(?:(\\d{2})(\\.\\d{1,4})?)?(?:([+-]\\d{2})(\\d{2}))?");
    private static final Pattern DATE = Pattern.compile("(\\d{4})(\\d{2})(\\d{2})");
    private static final int OFFSET_HOURS = 8;
    private static final int OFFSET_MINUTES = 9;

    private final Facilities facilities;
    private final String facilityId;
    private final @Nullable String offset;

    /** Reads the times of a message with that header. */
    MessageTimes(Facilities facilities, MessageHeader header) {
        this.facilities = facilities;
        this.facilityId = header.facility();
        Matcher made = TIME.matcher(header.time());
        this.offset = made.matches() ? offset(made) : null;
    }

    /**
     * What was read.
     *
     * @param text the time with its offset, or the date, as in events; what was written when it cannot be read
     * @param refusal why it cannot be read; null when it can
     */
    record Read(String text, @Nullable Reason refusal) {}

    /** Reads a time. */
    Read time(String written) {
        Matcher parts = TIME.matcher(written);
        if (!parts.matches()) {
            return unreadable(
                    written,
                    "is not a time to the minute",
                    "write year, month, day, hour and minute without separators and the offset behind them,"
                            + " for example 202602111841+0545");
        }
        String local = date(parts) + "T" + parts.group(4) + ":" + parts.group(5) + ":"
                + (parts.group(6) == null ? "00" : parts.group(6))
                + (parts.group(7) == null ? "" : parts.group(7));
        String own = offset(parts);
        if (own != null) {
            return new Read(local + own, null);
        }
        return offset == null ? placed(written, local) : new Read(local + offset, null);
    }

    /** Reads a date. */
    static Read date(String written) {
        Matcher parts = DATE.matcher(written);
        return parts.matches()
                ? new Read(date(parts), null)
                : unreadable(
                        written, "is not a date", "write year, month and day without separators, for example 20270630");
    }

    private Read placed(String written, String local) {
        try {
            Placing placing = facilities.place(facilityId, LocalDateTime.parse(local));
            return placing instanceof Placing.Placed placed
                    ? new Read(DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(placed.time()), null)
                    : new Read(written, ((Placing.NotPlaced) placing).reason(""));
        } catch (DateTimeException e) {
            return unreadable(written, "does not exist", "send a date and time that exist");
        }
    }

    private static String date(Matcher parts) {
        return parts.group(1) + "-" + parts.group(2) + "-" + parts.group(3);
    }

    private static @Nullable String offset(Matcher parts) {
        return parts.group(OFFSET_HOURS) == null ? null : parts.group(OFFSET_HOURS) + ":" + parts.group(OFFSET_MINUTES);
    }

    private static Read unreadable(String written, String wrong, String remedy) {
        return new Read(
                written,
                new Reason(ReasonCode.INVALID_VALUE, "", "'" + Texts.shortened(written) + "' " + wrong, remedy));
    }
}
