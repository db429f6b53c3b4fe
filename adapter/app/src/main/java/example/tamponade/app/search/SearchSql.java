package example.tamponade.app.search;

import example.tamponade.app.access.Compartment;
import example.tamponade.app.database.Dialect;
import example.tamponade.app.database.Instants;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * The conditions of a search in SQL, on the rows {@code c} of {@code current_version}. What divides few resources from many
 * is looked for first, and is the case: that of what is referred to, as all that refers to it stands in its case, and those
 * that have a code or an identifier. In these each row's words are looked at.
 */
final class SearchSql {

    /** The paths of which it is kept which cases have a value. */
    static final Set<String> SELECTIVE = Set.of("code", "identifier");

    private static final int OF_FEW_CASES = 1;
    private static final int LAST = 3;

    private final Dialect dialect;
    private final Map<String, Object> values = new LinkedHashMap<>();
    private final List<String> conditions = new ArrayList<>();
    private boolean isOfFewCases;

    private SearchSql(Dialect dialect) {
        this.dialect = dialect;
    }

    /** The conditions of that search, of what is in that compartment. */
    static SearchSql of(SearchRequest request, Compartment compartment, Dialect dialect) {
        SearchSql sql = new SearchSql(dialect);
        Row row = new Row("c", request.type());
        sql.conditions.add("c.type = " + sql.bind(request.type()));
        request.criteria().forEach(it -> sql.conditions.add(sql.condition(it, row)));
        if (!compartment.isEverything()) {
            sql.conditions.add(
                    RecordSearch.SHARED.contains(request.type())
                            ? compartment.ofResource("c", sql::bind)
                            : compartment.ofCase("c.case_key", sql::bind));
        }
        request.criteria().stream()
                .filter(it -> rank(it, request.type()) < LAST)
                .min(Comparator.comparing(it -> rank(it, request.type())))
                .ifPresent(it -> {
                    sql.conditions.add(1, sql.among(it, row));
                    sql.isOfFewCases = rank(it, request.type()) <= OF_FEW_CASES;
                });
        return sql;
    }

    // Fewest are in the cases of what is referred to, more have one code. What belongs to several cases is kept with
    // the first
    // alone, and is few.
    private static int rank(Criterion criterion, String type) {
        if (RecordSearch.SHARED.contains(type)) {
            return LAST;
        }
        if (criterion instanceof Criterion.Referred referred) {
            return RecordSearch.SHARED.contains(referred.type()) ? LAST : 0;
        }
        if (!(criterion instanceof Criterion.Values values) || !values.isThere()) {
            return LAST;
        }
        if (values.parameter().kind() == SearchParameter.Kind.REFERENCE) {
            boolean isOfOneCase = values.values().stream()
                    .allMatch(it -> it.system() != null && !RecordSearch.SHARED.contains(it.system()));
            return isOfOneCase ? 1 : LAST;
        }
        return SELECTIVE.containsAll(values.parameter().keys()) ? 2 : LAST;
    }

    /** The rows, by their cases where these are few: however many other cases there are, they are not looked at. */
    String rows() {
        return "current_version c" + (isOfFewCases ? dialect.by("current_version_by_case") : "");
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
    private record Row(String alias, String type) {

        String words() {
            return alias + ".words";
        }
    }

    private String condition(Criterion criterion, Row row) {
        if (criterion instanceof Criterion.Ids ids) {
            return row.alias() + ".id in (" + bind(ids.ids()) + ")";
        }
        if (criterion instanceof Criterion.Updated updated) {
            return either(updated.limits(), it -> updated(it, row));
        }
        if (criterion instanceof Criterion.Missing missing) {
            return (missing.isMissing() ? "not " : "") + isThere(missing.parameter(), row);
        }
        if (criterion instanceof Criterion.Times times) {
            return either(times.limits(), it -> limit(times.parameter(), it, row));
        }
        if (criterion instanceof Criterion.Referred referred) {
            return "exists (" + referred(referred, row, "id") + " and " + refers(referred, row) + ")";
        }
        Criterion.Values given = (Criterion.Values) criterion;
        return (given.isThere() ? "" : "not ") + either(given.values(), it -> hasValue(given.parameter(), it, row));
    }

    // No value at all, as of an empty value set, is had by none.
    private static <T> String either(List<T> alternatives, Function<T, String> condition) {
        return alternatives.isEmpty()
                ? "(1 = 0)"
                : alternatives.stream().map(condition).collect(Collectors.joining(" or ", "(", ")"));
    }

    private String hasValue(SearchParameter parameter, Criterion.Value value, Row row) {
        return either(parameter.keys(), it -> dialect.contains(row.words(), bind(IndexWords.part(it, value))));
    }

    private String isThere(SearchParameter parameter, Row row) {
        if (parameter.kind() != SearchParameter.Kind.DATE) {
            return either(parameter.keys(), it -> dialect.contains(row.words(), bind(IndexWords.part(it))));
        }
        return parameter.equals(SearchParameters.standard().time(row.type()))
                ? "(" + row.alias() + ".low is not null)"
                : further(parameter, row, "1 = 1");
    }

    private String limit(SearchParameter parameter, TimeLimit limit, Row row) {
        String low = bind(limit.span().low());
        String high = bind(limit.span().high());
        return parameter.equals(SearchParameters.standard().time(row.type()))
                ? "(" + limit.prefix().condition(row.alias() + ".low", row.alias() + ".high", low, high) + ")"
                : further(parameter, row, limit.prefix().condition("t.low", "t.high", low, high));
    }

    private String further(SearchParameter parameter, Row row, String match) {
        return "exists (select 1 from further_time t where t.type = " + row.alias() + ".type and t.id = " + row.alias()
                + ".id and t.path in (" + bind(parameter.keys()) + ") and " + match + ")";
    }

    // What went on record before that was kept has no time, and stands in no relation to any.
    private String updated(TimeLimit limit, Row row) {
        String column = row.alias() + ".stored_at";
        String low = bind(Instants.text(Instant.ofEpochMilli(limit.span().low())));
        String high = bind(Instants.text(Instant.ofEpochMilli(limit.span().high())));
        return "(" + column + " <> '' and " + limit.prefix().condition(column, column, low, high) + ")";
    }

    private String referred(Criterion.Referred referred, Row row, String column) {
        Row there = new Row(row.alias() + "_", referred.type());
        String among =
                rank(referred.criterion(), referred.type()) < LAST ? " and " + among(referred.criterion(), there) : "";
        return "select " + there.alias() + "." + column + " from current_version " + there.alias() + " where "
                + there.alias() + ".type = " + bind(there.type()) + among + " and "
                + condition(referred.criterion(), there);
    }

    private String refers(Criterion.Referred referred, Row row) {
        return either(referred.parameter().keys(), it -> {
            List<String> around = IndexWords.aroundId(it, referred.type());
            return dialect.contains(
                    row.words(), bind(around.get(0)) + " || " + row.alias() + "_.id || " + bind(around.get(1)));
        });
    }

    // The cases in which the others are looked for.
    private String among(Criterion criterion, Row row) {
        return row.alias() + ".case_key in (" + cases(criterion, row) + ")";
    }

    private String cases(Criterion criterion, Row row) {
        if (criterion instanceof Criterion.Referred referred) {
            return referred(referred, row, "case_key");
        }
        Criterion.Values given = (Criterion.Values) criterion;
        SearchParameter parameter = given.parameter();
        if (parameter.kind() == SearchParameter.Kind.REFERENCE) {
            return "select n.case_key from current_version n where "
                    + either(
                            given.values(),
                            it -> "(n.type = " + bind(String.valueOf(it.system())) + " and n.id = "
                                    + bind(String.valueOf(it.value())) + ")");
        }
        return "select s.case_key from case_value s where s.type = " + bind(row.type()) + " and s.path in ("
                + bind(parameter.keys()) + ") and " + either(given.values(), this::value);
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
}
