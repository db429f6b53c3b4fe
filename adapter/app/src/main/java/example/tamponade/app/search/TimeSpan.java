package example.tamponade.app.search;

import ca.uhn.fhir.model.api.TemporalPrecisionEnum;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.time.temporal.ChronoUnit;
import org.hl7.fhir.r4.model.BaseDateTimeType;

/**
 * What a time of FHIR covers, by its precision: a day from its first to its last millisecond, for example. A day, month or
 * year is one of UTC.
 *
 * @param low first millisecond since 1970 in UTC
 * @param high last millisecond
 */
public record TimeSpan(long low, long high) {

    static TimeSpan of(BaseDateTimeType time) {
        TemporalPrecisionEnum precision = time.getPrecision();
        if (precision.ordinal() > TemporalPrecisionEnum.DAY.ordinal()) {
            long low = time.getValue().getTime();
            return new TimeSpan(low, low + unit(precision).getDuration().toMillis() - 1);
        }
        ZonedDateTime begin = ZonedDateTime.of(
                time.getYear(),
                precision == TemporalPrecisionEnum.YEAR ? 1 : time.getMonth() + 1,
                precision == TemporalPrecisionEnum.DAY ? time.getDay() : 1,
                0,
                0,
                0,
                0,
                ZoneOffset.UTC);
        return new TimeSpan(
                begin.toInstant().toEpochMilli(),
                begin.plus(1, unit(precision)).toInstant().toEpochMilli() - 1);
    }

    private static ChronoUnit unit(TemporalPrecisionEnum precision) {
        return switch (precision) {
            case YEAR -> ChronoUnit.YEARS;
            case MONTH -> ChronoUnit.MONTHS;
            case DAY -> ChronoUnit.DAYS;
            case MINUTE -> ChronoUnit.MINUTES;
            case SECOND -> ChronoUnit.SECONDS;
            case MILLI -> ChronoUnit.MILLIS;
        };
    }
}
