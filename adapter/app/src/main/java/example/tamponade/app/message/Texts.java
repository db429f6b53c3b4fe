package example.tamponade.app.message;

/** Texts of the sender in our messages. */
final class Texts {

    private static final int MOST = 60;

    private Texts() {}

    /** The text, cut when it is long. */
    static String shortened(String text) {
        return text.length() > MOST ? text.substring(0, MOST) + "…" : text;
    }
}
