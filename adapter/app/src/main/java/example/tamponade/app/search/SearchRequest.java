package example.tamponade.app.search;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A search that was understood.
 *
 * @param type which resources are searched
 * @param criteria what each that is found must fulfil
 * @param sort in which order they come
 * @param count how many a page has; 0: they are counted alone
 * @param isCounted whether all that match are counted
 * @param included what is added that they refer to
 * @param referring what is added that refers to them
 * @param after where the page before ended; null for the first
 * @param ignored parameters that were not understood and are left out, where the client allows that
 */
public record SearchRequest(
        String type,
        List<Criterion> criteria,
        Sort sort,
        int count,
        boolean isCounted,
        List<Include> included,
        List<Include> referring,
        @Nullable Cursor after,
        List<String> ignored) {

    /** The parameter of our links to further pages. */
    public static final String AFTER = "_after";

    /** The types of what is searched, and of what it refers to and is searched by. */
    public Set<String> types() {
        Set<String> types = new LinkedHashSet<>();
        types.add(type);
        criteria.forEach(it -> {
            if (it instanceof Criterion.Referred referred) {
                types.add(referred.type());
            }
        });
        return types;
    }

    /** How many resources a page has unless the client says otherwise. */
    public static final int USUAL_COUNT = 50;

    /** How many a page has at most. */
    public static final int GREATEST_COUNT = 500;
}
