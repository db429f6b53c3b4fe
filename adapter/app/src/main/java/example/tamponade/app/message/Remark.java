package example.tamponade.app.message;

/**
 * Something in a message that is passed over, though its event is taken.
 *
 * @param place where
 * @param message what
 */
record Remark(MessagePlace place, String message) {}
