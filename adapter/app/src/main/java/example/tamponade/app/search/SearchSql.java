package example.tamponade.app.search;

import example.tamponade.app.database.Instants;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * The conditions of a search in SQL, on the rows {@code c} of {@code current_version}. What divides many resources from few
 * is looked for first, by the index; of those that are left each is looked at.
 */
final class SearchSql {

    private static final List<Class<? extends Criterion>> FIRST =
            List.of(Criterion.Ids.class, Criterion.Referred.class, Criterion.Values.class, Criterion.Times.class);

    private final Map<String, Object> values = new LinkedHashMap<>();
    private final List<String> conditions = new ArrayList<>();

    private SearchSql(String type) {
        conditions.add("c.type = " + bind(type));
    }

    /** The conditions of that search. */
    static SearchSql of(SearchRequest request) {
        SearchSql sql = new SearchSql(request.type());
        List<Criterion> criteria = new ArrayList<>(request.criteria());
        criteria.stream().min(Comparator.comparing(SearchSql::rank)).ifPresent(first -> {
            if (rank(first) < FIRST.size() * 10) {
                criteria.remove(first);
                criteria.add(0, first);
            }
        });
        for (int i = 0; i < criteria.size(); i++) {
            sql.conditions.add(sql.condition(criteria.get(i), new Row("c", request.type()), i == 0));
        }
        return sql;
    }

    // Little is found by what a resource belongs to, more by its code, much by a state or a category.
    private static int rank(Criterion criterion) {
        int rank = FIRST.indexOf(criterion.getClass());
        if (rank < 0 || criterion instanceof Criterion.Values values && !values.isThere()) {
            return FIRST.size() * 10;
        }
        if (criterion instanceof Criterion.Values values) {
            String name = values.parameter().name();
            boolean isFew = values.parameter().kind() == SearchParameter.Kind.REFERENCE || name.equals("identifier");
            return rank * 10 + (isFew ? 0 : name.equals("code") ? 1 : 9);
        }
        return rank * 10;
    }

    /** All conditions in one. */
    String where() {
        return String.join("\n  and ", conditions);
    }

    /** The values that it names. */
    Map<String, Object> values() {
        return Collections.unmodifiableMap(values);
    }

    /** Adds a further condition. */
    void add(String condition) {
        conditions.add(condition);
    }

    /** Names a value. */
    String bind(Object value) {
        String name = "p" + values.size();
        values.put(name, value);
        return ":" + name;
    }

    // The row of a resource: how it is called, and of what type it is.
    private record Row(String alias, String type) {}

    private String condition(Criterion criterion, Row row, boolean isFirst) {
        if (criterion instanceof Criterion.Ids ids) {
            return row.alias() + ".id in (" + bind(ids.ids()) + ")";
        }
        if (criterion instanceof Criterion.Updated updated) {
            return either(updated.limits(), it -> updated(it, row));
        }
        if (criterion instanceof Criterion.Missing missing) {
            return (missing.isMissing() ? "not " : "") + isThere(missing.parameter(), row, "1 = 1");
        }
        if (criterion instanceof Criterion.Times times) {
            return found(times.parameter(), row, either(times.limits(), this::limit), isFirst);
        }
        if (criterion instanceof Criterion.Referred referred) {
            Row there = new Row(row.alias() + "_", referred.type());
            String match = "s.system = " + bind(there.type()) + " and s.value in (select " + there.alias()
                    + ".id from current_version " + there.alias() + " where " + there.alias() + ".type = "
                    + bind(there.type()) + " and " + condition(referred.criterion(), there, true) + ")";
            return found(referred.parameter(), row, match, isFirst);
        }
        Criterion.Values given = (Criterion.Values) criterion;
        String match = either(given.values(), this::value);
        return given.isThere()
                ? found(given.parameter(), row, match, isFirst)
                : "not " + isThere(given.parameter(), row, match);
    }

    private static <T> String either(List<T> alternatives, Function<T, String> condition) {
        return alternatives.stream().map(condition).collect(Collectors.joining(" or ", "(", ")"));
    }

    private String found(SearchParameter parameter, Row row, String match, boolean isFirst) {
        return isFirst
                ? row.alias() + ".id in (select s.id from " + table(parameter) + " s where s.type = " + bind(row.type())
                        + " and " + at(parameter) + " and " + match + ")"
                : isThere(parameter, row, match);
    }

    private String isThere(SearchParameter parameter, Row row, String match) {
        return "exists (select 1 from " + table(parameter) + " s where s.type = " + row.alias() + ".type and s.id = "
                + row.alias() + ".id and " + at(parameter) + " and " + match + ")";
    }

    private String at(SearchParameter parameter) {
        return "s.path in (" + bind(parameter.keys()) + ")";
    }

    private static String table(SearchParameter parameter) {
        return parameter.kind() == SearchParameter.Kind.DATE ? "search_time" : "search_value";
    }

    private String value(Criterion.Value value) {
        List<String> parts = new ArrayList<>();
        if (value.value() != null) {
            parts.add("s.value = " + bind(value.value()));
        }
        if (value.system() != null) {
            parts.add("s.system = " + bind(value.system()));
        }
        return "(" + String.join(" and ", parts) + ")";
    }

    private String limit(TimeLimit limit) {
        TimeSpan span = limit.span();
        return limit.prefix().condition("s.low", "s.high", bind(span.low()), bind(span.high()));
    }

    // What went on record before that was kept has no time, and stands in no relation to any.
    private String updated(TimeLimit limit, Row row) {
        String column = row.alias() + ".stored_at";
        String low = bind(Instants.text(Instant.ofEpochMilli(limit.span().low())));
        String high = bind(Instants.text(Instant.ofEpochMilli(limit.span().high())));
        return "(" + column + " <> '' and " + limit.prefix().condition(column, column, low, high) + ")";
    }
}
