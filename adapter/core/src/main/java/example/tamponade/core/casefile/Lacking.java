package example.tamponade.core.casefile;

import java.util.ArrayList;
import java.util.List;

/** Collects in words what is not as it should be. */
final class Lacking {

    private final List<String> words = new ArrayList<>();

    /** Adds these words unless it is as it should be. */
    Lacking unless(boolean right, String what) {
        if (!right) {
            words.add(what);
        }
        return this;
    }

    /** Whether everything is as it should be. */
    boolean isNothing() {
        return words.isEmpty();
    }

    /** The words, with commas between them. */
    String words() {
        return String.join(", ", words);
    }
}
