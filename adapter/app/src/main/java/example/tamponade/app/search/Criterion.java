package example.tamponade.app.search;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** What a resource must fulfil to be found. */
public sealed interface Criterion {

    /**
     * One of these values is there, or none of them.
     *
     * @param isThere false for {@code :not}
     */
    record Values(SearchParameter parameter, List<Value> values, boolean isThere) implements Criterion {}

    /**
     * A value to look for.
     *
     * @param system its system, or type of what is referred to; null: any; empty: none
     * @param value the code or id; null: any of that system
     */
    record Value(@Nullable String system, @Nullable String value) {}

    /** A time of it stands in one of these relations. */
    record Times(SearchParameter parameter, List<TimeLimit> limits) implements Criterion {}

    /** It has no value there at all, or has one. */
    record Missing(SearchParameter parameter, boolean isMissing) implements Criterion {}

    /** It refers to a resource of that type that fulfils this. */
    record Referred(SearchParameter parameter, String type, Criterion criterion) implements Criterion {}

    /** It has one of these ids. */
    record Ids(List<String> ids) implements Criterion {}

    /** It went on record at such a time. */
    record Updated(List<TimeLimit> limits) implements Criterion {}
}
