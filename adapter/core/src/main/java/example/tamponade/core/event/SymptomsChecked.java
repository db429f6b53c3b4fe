package example.tamponade.core.event;

import org.jspecify.annotations.Nullable;

/**
 * The mother was asked and looked at for symptoms that published criteria of early warning name; at least one is there.
 *
 * @param agitatedOrConfused whether she is agitated or confused
 * @param unremittingHeadache whether she has a headache that does not go away
 * @param breathless whether she is short of breath
 */
public record SymptomsChecked(
        @Nullable Boolean agitatedOrConfused,
        @Nullable Boolean unremittingHeadache,
        @Nullable Boolean breathless) implements BedsideEvent {}
