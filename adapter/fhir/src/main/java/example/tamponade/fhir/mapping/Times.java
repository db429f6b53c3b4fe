package example.tamponade.fhir.mapping;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.InstantType;
import org.hl7.fhir.r4.model.Period;
import org.jspecify.annotations.Nullable;

/** Times with the offset that was written, to the second, or to the millisecond where there are any. */
final class Times {

    private static final DateTimeFormatter WRITTEN = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm xxx", Locale.ROOT);

    private Times() {}

    static DateTimeType dateTime(OffsetDateTime time) {
        return new DateTimeType(iso(time));
    }

    static DateTimeType day(LocalDate day) {
        return new DateTimeType(day.toString());
    }

    static InstantType instant(OffsetDateTime time) {
        return new InstantType(iso(time));
    }

    /** A period; without its end where that is not known or lies before the begin. */
    static Period period(OffsetDateTime start, @Nullable OffsetDateTime end) {
        Period period = new Period().setStartElement(dateTime(start));
        if (end != null && !end.isBefore(start)) {
            period.setEndElement(dateTime(end));
        }
        return period;
    }

    /** The time in words, for example {@code 2026-02-11 18:41 +05:45}. */
    static String words(OffsetDateTime time) {
        return WRITTEN.format(time);
    }

    private static String iso(OffsetDateTime time) {
        return DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(time.truncatedTo(ChronoUnit.MILLIS));
    }
}
