package example.tamponade.app.convert;

import java.io.PrintWriter;

/** Tells on standard error how far a long input has come. */
final class Progress {

    private static final long EVERY = 10_000;

    private final PrintWriter err;
    private long pieces;

    Progress(PrintWriter err) {
        this.err = err;
    }

    void piece() {
        pieces++;
        if (pieces % EVERY == 0) {
            err.println(pieces + " events read");
            err.flush();
        }
    }

    void say(String words) {
        err.println(words);
        err.flush();
    }
}
