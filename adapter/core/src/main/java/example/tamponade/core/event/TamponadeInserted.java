package example.tamponade.core.event;

import org.jspecify.annotations.Nullable;

/**
 * The device was placed; each insertion is a tamponade of its own.
 *
 * @param device what was inserted
 * @param guidedBy how the insertion was guided
 * @param positionConfirmed whether the position was confirmed
 */
public record TamponadeInserted(
        TamponadeDevice device, @Nullable Guidance guidedBy, boolean positionConfirmed) implements BedsideEvent {}
