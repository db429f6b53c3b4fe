package example.tamponade.core.event;

import java.time.OffsetDateTime;
import org.jspecify.annotations.Nullable;

/**
 * Something was done with hands or garment against the bleeding.
 *
 * @param kind what
 * @param start when it began
 * @param end when it ended; absent while it goes on or when it has no duration
 */
public record Manoeuvre(
        ManoeuvreKind kind, OffsetDateTime start, @Nullable OffsetDateTime end) implements BedsideEvent {}
