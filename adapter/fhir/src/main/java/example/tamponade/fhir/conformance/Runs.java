package example.tamponade.fhir.conformance;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** Resources put together, so that the stock validator prepares itself once for many. */
final class Runs {

    // Beyond this a run gains nothing: looking up references among the entries grows with their number.
    private static final int TOGETHER = 100;
    // Entries of a bundle need an address; the name is reserved and leads nowhere.
    private static final String ANYWHERE = "https://check.invalid/";

    private Runs() {}

    /** The resources in runs, in order; no name comes twice in a run. */
    static List<List<ResourceText>> of(List<ResourceText> all) {
        List<List<ResourceText>> runs = new ArrayList<>();
        List<ResourceText> run = new ArrayList<>();
        Set<String> names = new HashSet<>();
        for (ResourceText one : all) {
            if (run.size() == TOGETHER || (one.hasId() && names.contains(one.name()))) {
                runs.add(run);
                run = new ArrayList<>();
                names.clear();
            }
            run.add(one);
            names.add(one.name());
        }
        if (!run.isEmpty()) {
            runs.add(run);
        }
        return runs;
    }

    /** A run as entries of one bundle, whose references lead to one another. */
    static String bundle(List<ResourceText> run) {
        StringBuilder bundle = new StringBuilder("{\"resourceType\":\"Bundle\",\"type\":\"collection\",\"entry\":[");
        for (int i = 0; i < run.size(); i++) {
            ResourceText one = run.get(i);
            String fullUrl = one.hasId() ? ANYWHERE + one.name() : withoutId(i);
            bundle.append(i == 0 ? "" : ",").append("{\"fullUrl\":\"").append(fullUrl);
            bundle.append("\",\"resource\":").append(one.json()).append('}');
        }
        return bundle.append("]}").toString();
    }

    private static String withoutId(int place) {
        return String.format(Locale.ROOT, "urn:uuid:00000000-0000-4000-8000-%012d", place);
    }
}
