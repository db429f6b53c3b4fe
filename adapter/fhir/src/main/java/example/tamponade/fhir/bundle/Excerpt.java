package example.tamponade.fhir.bundle;

import java.util.Set;

/**
 * What of a case somebody gets.
 *
 * @param view how much of it is told
 * @param types the types of resources; empty: all
 * @param there resources, {@code Type/id}, that stay in it because they were handed on before
 */
public record Excerpt(CaseView view, Set<String> types, Set<String> there) {

    /** A view of a case, for somebody who has nothing of it yet. */
    static Excerpt of(CaseView view) {
        return new Excerpt(view, Set.of(), Set.of());
    }

    boolean isAll() {
        return view == CaseView.FULL && types.isEmpty();
    }
}
