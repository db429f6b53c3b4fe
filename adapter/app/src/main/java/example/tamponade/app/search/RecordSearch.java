package example.tamponade.app.search;

import example.tamponade.app.database.Database;
import example.tamponade.app.outbox.ResourceNames;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Finds resources on record. */
public final class RecordSearch {

    private static final int MOST_OTHERS = 5000;

    private static final String COLUMNS = "c.type, c.id, c.version, c.stored_at, v.content";
    private static final String CONTENT = """
            current_version c
            join resource_version v on v.type = c.type and v.id = c.id and v.version = c.version
            """;

    private final JdbcClient jdbc;

    /** Searches that database. */
    public RecordSearch(Database database) {
        this.jdbc = database.reader();
    }

    /**
     * A page of what fulfils a search, and what is included with it.
     *
     * @throws SearchRefusedException when more would be included than a page can have
     */
    public FoundPage find(SearchRequest request) {
        Long total = request.isCounted() || request.count() == 0 ? count(request) : null;
        if (request.count() == 0) {
            return new FoundPage(List.of(), List.of(), null, total);
        }
        List<Sorted> sorted = matches(request);
        boolean isMore = sorted.size() > request.count();
        List<Sorted> page = isMore ? sorted.subList(0, request.count()) : sorted;
        List<FoundVersion> matches = page.stream().map(Sorted::version).toList();
        String next = isMore ? page.get(page.size() - 1).cursor().text() : null;
        return new FoundPage(matches, others(request, matches), next, total);
    }

    private long count(SearchRequest request) {
        SearchSql sql = SearchSql.of(request);
        return jdbc.sql("select count(*) from current_version c where " + sql.where())
                .params(sql.values())
                .query(Long.class)
                .single();
    }

    /**
     * The latest of each code of what fulfils a search; of several that say the same time, those with the first ids.
     *
     * @param most how many of each code
     */
    public List<FoundVersion> latest(SearchRequest request, int most) {
        SearchSql sql = SearchSql.of(request);
        List<String> names = jdbc.sql("""
                        select distinct type, id from (
                            select c.type, c.id, row_number() over (
                                partition by k.system, k.value
                                order by coalesce((select max(o.low) from search_time o where o.type = c.type
                                    and o.id = c.id and o.path in (%s)), %s) desc, c.id) as place
                            from current_version c
                            join search_value k on k.type = c.type and k.id = c.id and k.path in (%s)
                            where %s) ordered
                        where place <= %s
                        """.formatted(
                                sql.bind(parameter(request, "date").keys()),
                                sql.bind(Long.MIN_VALUE),
                                sql.bind(parameter(request, "code").keys()),
                                sql.where(),
                                sql.bind(most)))
                .params(sql.values())
                .query((row, n) -> row.getString(1) + "/" + row.getString(2))
                .list();
        return current(names);
    }

    private static SearchParameter parameter(SearchRequest request, String name) {
        return Objects.requireNonNull(
                SearchParameters.standard().of(request.type()).get(name), name);
    }

    /** The keys of the cases that a resource is of. */
    public List<String> cases(String type, String id) {
        return jdbc.sql("select case_key from case_resource where type = :type and id = :id order by case_key")
                .param("type", type)
                .param("id", id)
                .query(String.class)
                .list();
    }

    /** Everything that a case is told by. */
    public List<FoundVersion> ofCase(String caseKey) {
        return jdbc.sql("select " + COLUMNS + """
                         from case_resource n
                        join current_version c on c.type = n.type and c.id = n.id
                        join resource_version v on v.type = c.type and v.id = c.id and v.version = c.version
                        where n.case_key = :caseKey order by c.type, c.id
                        """)
                .param("caseKey", caseKey)
                .query((row, n) -> FoundVersion.of(row))
                .list();
    }

    private record Sorted(String key, FoundVersion version) {

        Cursor cursor() {
            return new Cursor(key, version.id());
        }
    }

    private List<Sorted> matches(SearchRequest request) {
        SearchSql sql = SearchSql.of(request);
        Sort sort = request.sort();
        String order = sort.isDescending() ? " desc" : "";
        String key = "''";
        if (sort.isByUpdate()) {
            key = "c.stored_at";
        } else if (sort.parameter() != null) {
            // What has no time comes first, and last when the last come first.
            key = "coalesce((select min(o.low) from search_time o where o.type = c.type and o.id = c.id and o.path in ("
                    + sql.bind(sort.parameter().keys()) + ")), " + sql.bind(Long.MIN_VALUE) + ")";
        }
        if (request.after() != null) {
            sql.add(behind(sql, key, request.after(), sort));
        }
        String by = key.equals("''") ? "c.id" + order : key + order + ", c.id";
        return jdbc.sql("select " + COLUMNS + ", " + key + " from " + CONTENT + " where " + sql.where() + " order by "
                        + by + " limit " + (request.count() + 1))
                .params(sql.values())
                .query((row, n) -> new Sorted(row.getString(6), FoundVersion.of(row)))
                .list();
    }

    private static String behind(SearchSql sql, String key, Cursor after, Sort sort) {
        String beyond = sort.isDescending() ? " < " : " > ";
        String id = sql.bind(after.id());
        if (key.equals("''")) {
            return "c.id" + beyond + id;
        }
        String last = sql.bind(sort.isByUpdate() ? after.key() : number(after.key()));
        return "(" + key + beyond + last + " or " + key + " = " + last + " and c.id > " + id + ")";
    }

    private static Object number(String key) {
        try {
            return Long.parseLong(key);
        } catch (NumberFormatException e) {
            throw new SearchRefusedException(
                    SearchRequest.AFTER + ": no page of this order begins there; take the links of the page before");
        }
    }

    private List<FoundVersion> others(SearchRequest request, List<FoundVersion> matches) {
        Set<String> names = new LinkedHashSet<>();
        Map<String, List<String>> ids = new TreeMap<>();
        matches.forEach(
                it -> ids.computeIfAbsent(it.type(), type -> new ArrayList<>()).add(it.id()));
        ids.forEach((type, some) -> {
            request.included().stream()
                    .filter(it -> it.type().equals(type))
                    .forEach(it -> names.addAll(named(it, some)));
            request.referring().forEach(it -> names.addAll(referring(it, type, some)));
        });
        matches.forEach(it -> names.remove(it.type() + "/" + it.id()));
        if (names.size() > MOST_OTHERS) {
            throw new SearchRefusedException("more than " + MOST_OTHERS
                    + " resources would be included; ask for a smaller _count or fewer of _include and _revinclude");
        }
        return current(names);
    }

    private List<String> named(Include include, List<String> ids) {
        return jdbc.sql("""
                        select distinct s.system, s.value from search_value s
                        where s.type = :type and s.path in (:paths) and s.id in (:ids)
                          and (:target = '' or s.system = :target)
                        """)
                .param("type", include.type())
                .param("paths", include.keys())
                .param("ids", ids)
                .param("target", include.target())
                .query((row, n) -> row.getString(1) + "/" + row.getString(2))
                .list();
    }

    private List<String> referring(Include include, String type, List<String> ids) {
        return jdbc.sql("""
                        select distinct s.type, s.id from search_value s
                        where s.type = :type and s.path in (:paths) and s.value in (:ids) and s.system = :system
                        """)
                .param("type", include.type())
                .param("paths", include.keys())
                .param("ids", ids)
                .param("system", type)
                .query((row, n) -> row.getString(1) + "/" + row.getString(2))
                .list();
    }

    /** The current versions of these resources ({@code Type/id}), those that there are. */
    public List<FoundVersion> current(Collection<String> names) {
        List<FoundVersion> found = new ArrayList<>();
        ResourceNames.byType(
                names,
                (type, ids) -> found.addAll(jdbc.sql("select " + COLUMNS + " from " + CONTENT
                                + " where c.type = :type and c.id in (:ids) order by c.id")
                        .param("type", type)
                        .param("ids", ids)
                        .query((row, n) -> FoundVersion.of(row))
                        .list()));
        return found;
    }
}
