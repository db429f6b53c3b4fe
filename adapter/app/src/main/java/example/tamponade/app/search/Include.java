package example.tamponade.app.search;

import java.util.List;

/**
 * What is added to what was found: what it refers to, or what refers to it.
 *
 * @param type type of the resource that refers
 * @param keys where it does, by the keys of the index
 * @param target type of what it refers to; empty: any
 */
public record Include(String type, List<String> keys, String target) {

    /**
     * Reads for example {@code Observation:derived-from} or {@code Observation:subject:Patient}.
     *
     * @param place what it was given for
     * @throws SearchRefusedException when that refers to nothing
     */
    static Include of(String place, String text) {
        String[] parts = text.split(":", -1);
        SearchParameter parameter = parts.length < 2 || parts.length > 3
                ? null
                : SearchParameters.standard().of(parts[0]).get(parts[1]);
        if (parameter == null || parameter.kind() != SearchParameter.Kind.REFERENCE) {
            throw new SearchRefusedException(place + ": '" + text
                    + "' refers to nothing; write for example Observation:derived-from; GET /fhir/metadata lists them");
        }
        return new Include(parts[0], parameter.keys(), parts.length == 3 ? parts[2] : parameter.target());
    }

    /** Whether what is referred to ({@code Type/id}) is of the type that is asked for. */
    boolean isTarget(String name) {
        return target.isEmpty() || name.startsWith(target + "/");
    }
}
