package example.tamponade.core.event;

/**
 * How the mother came out of the case.
 *
 * @param mother her outcome
 * @param closesCase whether the case ends here
 */
public record Outcome(MotherOutcome mother, boolean closesCase) implements BedsideEvent {}
