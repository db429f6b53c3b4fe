package example.tamponade.fhir.bundle;

import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Times of one page, all at one offset; the day is written where it is another than in the row before. */
final class RowTimes {

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

    private final ZoneOffset offset;
    private @Nullable LocalDate last;

    RowTimes(ZoneOffset offset) {
        this.offset = offset;
    }

    /** The times of the rows of one table. */
    RowTimes ofTable() {
        return new RowTimes(offset);
    }

    /** The time of the next row. */
    String next(Instant instant) {
        OffsetDateTime time = instant.atOffset(offset);
        boolean same = time.toLocalDate().equals(last);
        last = time.toLocalDate();
        return (same ? TIME : DAY).format(time);
    }

    /** A time by itself. */
    String at(Instant instant) {
        return DAY.format(instant.atOffset(offset));
    }
}
