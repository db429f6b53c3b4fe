package example.tamponade.app.message;

import example.tamponade.app.intake.Original;

/**
 * A block as it came.
 *
 * @param original its content; of one that is too long to be kept the beginning
 * @param tooLong whether that is not all of it
 */
record Frame(Original original, boolean tooLong) {}
