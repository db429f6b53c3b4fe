package example.tamponade.core.event;

/**
 * One baby of this birth.
 *
 * @param outcome how the baby was at birth
 */
public record Baby(BabyOutcome outcome) {}
