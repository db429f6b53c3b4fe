package example.tamponade.app.access;

/** Somebody who sends. */
public final class TestCaller {

    public static final Caller SENDER = Caller.by("test", "sender");

    private TestCaller() {}
}
