package example.tamponade.core.protocol;

import example.tamponade.core.event.Coded;

/** How the balloon is deflated after the first watched step. */
public enum DeflationCompletion implements Coded {
    /** After one whole step was watched without bleeding, the rest may come out at once. */
    REST_AT_ONCE,
    /** Step by step until it is empty. */
    STEPS_ONLY
}
