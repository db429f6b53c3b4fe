package example.tamponade.app.delivery;

import java.time.Duration;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a destination said of a batch.
 *
 * @param kind what it means
 * @param etags how it names the version of each resource, in order, where it took them; empty texts where it does not say
 * @param ids the id that each has there, in order, where it took them; empty texts where it does not say
 * @param words what it said, and what to do
 * @param pause how long it asks to be left alone; null when it does not say
 */
record Answer(
        Kind kind,
        List<String> etags,
        List<String> ids,
        String words,
        @Nullable Duration pause) {

    enum Kind {
        /** It has them. */
        TAKEN,
        /** It has other versions than we know of. */
        CONFLICT,
        /** It takes no more than some of them at once. */
        TOO_LARGE,
        /** It does not take them as they are. */
        REFUSED,
        /** It takes nothing now, or did not say whether it did. */
        UNAVAILABLE
    }

    static Answer taken(List<String> etags, List<String> ids) {
        return new Answer(Kind.TAKEN, etags, ids, "", null);
    }

    /** It took so many, and says nothing of their versions. */
    static Answer taken(int resources) {
        List<String> unsaid = Collections.nCopies(resources, "");
        return taken(unsaid, unsaid);
    }

    static Answer of(Kind kind, String words) {
        return new Answer(kind, List.of(), List.of(), words, null);
    }

    static Answer unavailable(String words, @Nullable Duration pause) {
        return new Answer(Kind.UNAVAILABLE, List.of(), List.of(), words, pause);
    }
}
