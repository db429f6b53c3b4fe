package example.tamponade.app.convert;

import java.io.PrintWriter;

/** Tells on standard error how far a long input has come. */
final class Progress {

    private static final long EVERY = 10_000;

    private final PrintWriter err;
    private long lines;

    Progress(PrintWriter err) {
        this.err = err;
    }

    void line() {
        lines++;
        if (lines % EVERY == 0) {
            err.println(lines + " lines read");
            err.flush();
        }
    }

    void say(String words) {
        err.println(words);
        err.flush();
    }
}
