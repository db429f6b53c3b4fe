package example.tamponade.core.event;

import org.jspecify.annotations.Nullable;

/**
 * The bleeding was looked at.
 *
 * @param amount how much is coming
 * @param otherSource true when blood comes from elsewhere than the uterine cavity
 */
public record BleedingChecked(
        BleedingAmount amount, @Nullable Boolean otherSource) implements BedsideEvent {}
