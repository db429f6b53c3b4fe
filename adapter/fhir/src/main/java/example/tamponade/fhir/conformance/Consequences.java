package example.tamponade.fhir.conformance;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Problems that only say that something else has one. */
final class Consequences {

    private static final Pattern BAD_TARGET =
            Pattern.compile("^Unable to find a profile match for (\\S+) among choices");

    private Consequences() {}

    /** Leaves out that a resource names another which fails by itself: the other says why. */
    static List<Problem> without(List<Problem> problems) {
        Set<String> failing = problems.stream()
                .filter(it -> it.severity() == Problem.Severity.ERROR && target(it) == null)
                .map(Problem::resource)
                .collect(Collectors.toCollection(HashSet::new));
        boolean more = true;
        while (more) {
            more = failing.addAll(problems.stream()
                    .filter(it -> isConsequence(it, failing))
                    .map(Problem::resource)
                    .toList());
        }
        return problems.stream().filter(it -> !isConsequence(it, failing)).toList();
    }

    private static boolean isConsequence(Problem problem, Set<String> failing) {
        String target = target(problem);
        return target != null && failing.contains(target);
    }

    private static @Nullable String target(Problem problem) {
        Matcher target = BAD_TARGET.matcher(problem.message());
        return target.find() ? target.group(1) : null;
    }
}
