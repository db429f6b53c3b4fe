package example.tamponade.app.intake;

/**
 * One line of a file of events.
 *
 * @param number its number, from 1
 * @param offset where it begins in the file, in bytes
 * @param original the line without its line end
 * @param blank whether there is nothing on the line but white space
 */
public record EventLine(long number, long offset, Original original, boolean blank) {}
