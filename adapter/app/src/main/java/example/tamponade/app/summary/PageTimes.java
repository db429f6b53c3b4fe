package example.tamponade.app.summary;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.CaseFile;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;

/** Writes every time of a page by one clock: that of the place where the case began. */
final class PageTimes {

    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);
    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

    private final ZoneOffset offset;
    private final boolean converted;

    PageTimes(CaseFile file) {
        List<ZoneOffset> offsets = file.entries().stream()
                .map(CaseEntry::event)
                .map(it -> it.occurredAt().getOffset())
                .toList();
        this.offset = offsets.get(0);
        this.converted = offsets.stream().anyMatch(it -> !it.equals(offset));
    }

    String of(OffsetDateTime time) {
        return TIME.format(time.withOffsetSameInstant(offset));
    }

    /** Seconds since 1970 of that clock, as if it were in UTC. */
    long seconds(OffsetDateTime time) {
        return time.toEpochSecond() + offset.getTotalSeconds();
    }

    String clock(OffsetDateTime time) {
        return CLOCK.format(time.withOffsetSameInstant(offset));
    }

    /** Which clock it is, and whether times of another were converted. */
    String words() {
        String zone = offset.equals(ZoneOffset.UTC) ? "+00:00" : offset.getId();
        return "times in " + zone + (converted ? "; those recorded by another clock are converted" : "");
    }

    ZoneOffset offset() {
        return offset;
    }
}
