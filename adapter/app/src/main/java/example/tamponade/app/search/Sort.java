package example.tamponade.app.search;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * In which order what is found comes; what is equal there comes by id.
 *
 * @param parameter by which time of the resource; null: by none
 * @param isByUpdate whether by when it went on record
 * @param isDescending whether the last comes first
 */
public record Sort(@Nullable SearchParameter parameter, boolean isByUpdate, boolean isDescending) {

    static final Sort BY_ID = new Sort(null, false, false);

    /**
     * Reads {@code date}, {@code -date}, {@code _lastUpdated} or {@code _id}.
     *
     * @throws SearchRefusedException when nothing is sorted by that
     */
    static Sort of(String type, String text) {
        boolean isDescending = text.startsWith("-");
        String name = isDescending ? text.substring(1) : text;
        SearchParameter parameter = SearchParameters.standard().of(type).get(name);
        if (parameter != null && parameter.kind() == SearchParameter.Kind.DATE) {
            return new Sort(parameter, false, isDescending);
        }
        if (name.equals("_lastUpdated") || name.equals("_id")) {
            return new Sort(null, name.equals("_lastUpdated"), isDescending);
        }
        List<String> known = SearchParameters.standard().of(type).values().stream()
                .filter(it -> it.kind() == SearchParameter.Kind.DATE)
                .map(SearchParameter::name)
                .toList();
        throw new SearchRefusedException(String.format(
                Locale.ROOT,
                "_sort: %s is not sorted by '%s'; use one of _id, _lastUpdated%s, with - before it for the last first",
                type,
                text,
                known.isEmpty() ? "" : ", " + String.join(", ", known)));
    }
}
