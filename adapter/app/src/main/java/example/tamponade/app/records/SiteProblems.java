package example.tamponade.app.records;

import example.tamponade.fhir.site.SiteProblem;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;

/** What a site's packages refused, each kind once with how often. Safe for several threads. */
public final class SiteProblems implements Consumer<SiteProblem> {

    private static final int KINDS = 1000;

    private final Map<String, Integer> counts = new LinkedHashMap<>();
    private final Consumer<String> first;

    /**
     * Collects them.
     *
     * @param first is told of the first of each kind, in words that hold nothing of a patient
     */
    public SiteProblems(Consumer<String> first) {
        this.first = first;
    }

    @Override
    public void accept(SiteProblem problem) {
        String kind = problem.withoutValues();
        boolean isNew;
        synchronized (counts) {
            isNew = !counts.containsKey(kind) && counts.size() < KINDS;
            if (isNew || counts.containsKey(kind)) {
                counts.merge(kind, 1, Integer::sum);
            }
        }
        if (isNew) {
            first.accept(kind);
        }
    }

    /** Each kind with how often it came. */
    public List<String> inWords() {
        synchronized (counts) {
            return counts.entrySet().stream()
                    .map(it -> it.getValue() + " x " + it.getKey())
                    .toList();
        }
    }
}
