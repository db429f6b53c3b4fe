package example.tamponade.core.event;

/**
 * Something written in words.
 *
 * @param text the words
 */
public record Note(String text) implements BedsideEvent {}
