package example.tamponade.app.database;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;

/** How the database writes an instant: in UTC, to the millisecond, always as long, so that text sorts as time does. */
public final class Instants {

    private static final DateTimeFormatter TEXT =
            DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss.SSS'Z'").withZone(ZoneOffset.UTC);

    private Instants() {}

    /** The instant as text, for example {@code 2026-02-11T17:13:00.250Z}. */
    public static String text(Instant instant) {
        return TEXT.format(instant);
    }
}
