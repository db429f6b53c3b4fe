package example.tamponade.app.ledger;

import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Original;
import java.time.Instant;

/**
 * An event that is to be appended.
 *
 * @param taken the event
 * @param format the format it came in
 * @param original the bytes it came in
 * @param receivedAt when it came
 */
public record Arrival(Intake.Taken taken, InputFormat format, Original original, Instant receivedAt) {}
