package example.tamponade.fhir.pseudonym;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.model.api.TemporalPrecisionEnum;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.Date;
import java.util.List;
import java.util.TimeZone;
import org.hl7.fhir.r4.model.BaseDateTimeType;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.InstantType;
import org.hl7.fhir.r4.model.Resource;

/** How times of a case are moved: by days, and to UTC with the hours of the clock that the case began by. */
final class TimeShift {

    private static final long SECOND = 1000;
    private static final long DAY = 24 * 60 * 60 * SECOND;

    private final long millis;
    private final long days;

    private TimeShift(long days, long offsetSeconds) {
        this.days = days;
        this.millis = offsetSeconds * SECOND - days * DAY;
    }

    static TimeShift of(long days, List<Resource> resources) {
        long offset = resources.stream()
                .flatMap(
                        it -> FhirContext.forR4Cached()
                                .newTerser()
                                .getAllPopulatedChildElementsOfType(it, BaseDateTimeType.class)
                                .stream())
                .filter(it -> (it instanceof DateTimeType || it instanceof InstantType)
                        && it.getPrecision().ordinal() > TemporalPrecisionEnum.DAY.ordinal())
                .map(it -> OffsetDateTime.parse(it.getValueAsString()))
                .min(Comparator.naturalOrder())
                .map(it -> (long) it.getOffset().getTotalSeconds())
                .orElse(0L);
        return new TimeShift(days, offset);
    }

    OffsetDateTime moved(OffsetDateTime time) {
        return time.plus(Duration.ofMillis(millis)).withOffsetSameInstant(ZoneOffset.UTC);
    }

    /** Moves a time; one of a day keeps to days. */
    void move(BaseDateTimeType time) {
        Date value = time.getValue();
        if (value == null) {
            return;
        }
        TemporalPrecisionEnum precision = time.getPrecision();
        if (precision.ordinal() > TemporalPrecisionEnum.DAY.ordinal()) {
            time.setTimeZone(TimeZone.getTimeZone("UTC"));
            time.setValue(new Date(value.getTime() + millis), precision);
        } else {
            time.setValue(new Date(value.getTime() - days * DAY), precision);
        }
    }
}
