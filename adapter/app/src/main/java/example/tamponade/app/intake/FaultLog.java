package example.tamponade.app.intake;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.slf4j.Logger;

/** Logs faults of this software without what was recorded: that is kept in the ledger and in quarantine, not in a log. */
public final class FaultLog {

    private static final int FRAMES = 30;

    private FaultLog() {}

    /** Logs what failed and where; what the exceptions say may hold what was recorded. */
    public static void error(Logger log, String what, Throwable failure) {
        Set<Throwable> seen = Collections.newSetFromMap(new IdentityHashMap<>());
        List<String> causes = new ArrayList<>();
        for (Throwable cause = failure; cause != null && seen.add(cause); cause = cause.getCause()) {
            causes.add(inWords(cause));
        }
        log.error("{}: {}", what, String.join("\ncaused by ", causes));
    }

    private static String inWords(Throwable failure) {
        return failure.getClass().getName()
                + Arrays.stream(failure.getStackTrace())
                        .limit(FRAMES)
                        .map(it -> "\n\tat " + it)
                        .collect(Collectors.joining());
    }
}
