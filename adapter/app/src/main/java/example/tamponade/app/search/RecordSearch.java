package example.tamponade.app.search;

import example.tamponade.app.access.Binding;
import example.tamponade.app.access.Compartment;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.Dialect;
import example.tamponade.app.outbox.ResourceNames;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Finds resources on record. */
public final class RecordSearch {

    /** Types whose resources may belong to several cases; those of every other type have one. */
    public static final Set<String> SHARED =
            Set.of("Device", "Location", "Organization", "Practitioner", "PractitionerRole");

    private static final String CODE = "code";
    private static final int MOST_OTHERS = 1000;
    private static final int MOST_LATEST = 2000;
    private static final int MOST_LOOKED_AT = 20_000;

    private static final String COLUMNS = "c.type, c.id, c.version, c.stored_at, v.content";
    private static final String VERSION =
            " join resource_version v on v.type = c.type and v.id = c.id and v.version = c.version ";
    private static final String CONTENT = "current_version c" + VERSION;

    private final JdbcClient jdbc;
    private final Dialect dialect;

    /** Searches that database. */
    public RecordSearch(Database database) {
        this.jdbc = database.reader();
        this.dialect = database.dialect();
    }

    /**
     * A page of what fulfils a search, and what is included with it.
     *
     * @param compartment of which cases
     * @throws SearchRefusedException when more would be included than a page can have
     */
    public FoundPage find(SearchRequest request, Compartment compartment) {
        Long total = request.isCounted() || request.count() == 0 ? count(request, compartment) : null;
        if (request.count() == 0) {
            return new FoundPage(List.of(), List.of(), null, total);
        }
        List<Sorted> sorted = matches(request, compartment);
        boolean isMore = sorted.size() > request.count();
        List<Sorted> page = isMore ? sorted.subList(0, request.count()) : sorted;
        List<FoundVersion> matches = page.stream().map(Sorted::version).toList();
        String next = isMore ? page.get(page.size() - 1).cursor().text() : null;
        return new FoundPage(matches, others(request, matches, compartment), next, total);
    }

    private long count(SearchRequest request, Compartment compartment) {
        SearchSql sql = SearchSql.of(request, compartment, dialect);
        return jdbc.sql("select count(*) from " + sql.rows() + " where " + sql.where())
                .params(sql.values())
                .query(Long.class)
                .single();
    }

    /**
     * The latest of each code of what fulfils a search; of several that say the same time, those with the first ids.
     *
     * @param most how many of each code
     * @param compartment of which cases
     * @throws SearchRefusedException when more would have to be looked at, or would be found, than one answer can have
     */
    public List<FoundVersion> latest(SearchRequest request, int most, Compartment compartment) {
        SearchSql sql = SearchSql.of(request, compartment, dialect);
        List<Worded> ordered = jdbc.sql("select c.id, c.words from " + sql.rows() + " where " + sql.where()
                        + " order by coalesce(c.low, " + sql.bind(Long.MIN_VALUE) + ") desc, c.id limit "
                        + (MOST_LOOKED_AT + 1))
                .params(sql.values())
                .query((row, n) -> new Worded(request.type() + "/" + row.getString(1), row.getString(2)))
                .list();
        demand(ordered.size() <= MOST_LOOKED_AT);
        Map<String, Integer> places = new HashMap<>();
        Set<String> latest = new LinkedHashSet<>();
        for (Worded one : ordered) {
            for (String code : IndexWords.values(one.words(), CODE)) {
                if (places.merge(code, 1, Integer::sum) <= most) {
                    latest.add(one.name());
                }
            }
        }
        demand(latest.size() <= MOST_LATEST);
        return current(latest, compartment);
    }

    /** The key of the case in that compartment that a resource is of, the first where it is of several. */
    public Optional<String> caseKey(String type, String id, Compartment compartment) {
        Binding binding = new Binding();
        return jdbc.sql("select n.case_key from case_resource n where n.type = :type and n.id = :id and "
                        + compartment.ofCase("n.case_key", binding::bind) + " order by n.case_key limit 1")
                .param("type", type)
                .param("id", id)
                .params(binding.values())
                .query(String.class)
                .optional();
    }

    /** Those of these cases, by their keys, that are in that compartment, in their order. */
    public List<String> seen(Collection<String> caseKeys, Compartment compartment) {
        if (compartment.isEverything()) {
            return List.copyOf(caseKeys);
        }
        Binding binding = new Binding();
        Set<String> seen = new HashSet<>(jdbc.sql("select s.case_key from case_facility s where "
                        + compartment.ofCase("s.case_key", binding::bind))
                .params(binding.values())
                .query(String.class)
                .list());
        return caseKeys.stream().filter(seen::contains).toList();
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

    private List<Sorted> matches(SearchRequest request, Compartment compartment) {
        SearchSql sql = SearchSql.of(request, compartment, dialect);
        Sort sort = request.sort();
        String key = key(request, sql);
        if (request.after() != null) {
            sql.add(behind(sql, key, request.after(), sort));
        }
        // What has no time comes first, and last when the last come first.
        String order = sort.isDescending() ? " desc nulls last" : " nulls first";
        String by = key.isEmpty() ? "c.id" + (sort.isDescending() ? " desc" : "") : key + order + ", c.id";
        return jdbc.sql("select " + COLUMNS + ", " + (key.isEmpty() ? "''" : key) + " from " + sql.rows() + VERSION
                        + "where " + sql.where() + " order by " + by + " limit " + (request.count() + 1))
                .params(sql.values())
                .query((row, n) -> new Sorted(row.getString(6), FoundVersion.of(row)))
                .list();
    }

    private static String key(SearchRequest request, SearchSql sql) {
        Sort sort = request.sort();
        if (sort.isByUpdate()) {
            return "c.stored_at";
        }
        return sort.parameter() == null ? "" : time(sort.parameter(), request.type(), sql);
    }

    private static String behind(SearchSql sql, String key, Cursor after, Sort sort) {
        String beyond = sort.isDescending() ? " < " : " > ";
        String id = sql.bind(after.id());
        if (key.isEmpty()) {
            return "c.id" + beyond + id;
        }
        if (after.key().isEmpty() && !sort.isByUpdate()) {
            return sort.isDescending()
                    ? "(" + key + " is null and c.id > " + id + ")"
                    : "(" + key + " is null and c.id > " + id + " or " + key + " is not null)";
        }
        String last = sql.bind(sort.isByUpdate() ? after.key() : number(after.key()));
        return "(" + key + beyond + last + " or " + key + " = " + last + " and c.id > " + id
                + (sort.isDescending() ? " or " + key + " is null" : "") + ")";
    }

    private static Object number(String key) {
        try {
            return Long.parseLong(key);
        } catch (NumberFormatException e) {
            throw new SearchRefusedException(
                    SearchRequest.AFTER + ": no page of this order begins there; take the links of the page before");
        }
    }

    private static String time(SearchParameter parameter, String type, SearchSql sql) {
        return parameter.equals(SearchParameters.standard().time(type))
                ? "c.low"
                : "(select min(o.low) from further_time o where o.type = c.type and o.id = c.id and o.path in ("
                        + sql.bind(parameter.keys()) + "))";
    }

    private List<FoundVersion> others(SearchRequest request, List<FoundVersion> matches, Compartment compartment) {
        if (matches.isEmpty()
                || request.included().isEmpty() && request.referring().isEmpty()) {
            return List.of();
        }
        List<String> ids = matches.stream().map(FoundVersion::id).toList();
        Set<String> found = new LinkedHashSet<>();
        ids.forEach(it -> found.add(request.type() + "/" + it));
        Set<String> names = new LinkedHashSet<>();
        request.included().stream()
                .filter(it -> it.type().equals(request.type()))
                .forEach(it -> words(it.type(), ids)
                        .forEach(one -> IndexWords.references(one.words(), it.keys()).stream()
                                .filter(it::isTarget)
                                .forEach(names::add)));
        request.referring()
                .forEach(it -> wordsInCases(it.type(), request.type(), ids).stream()
                        .filter(one -> IndexWords.references(one.words(), it.keys()).stream()
                                .anyMatch(found::contains))
                        .forEach(one -> names.add(one.name())));
        names.removeAll(found);
        if (names.size() > MOST_OTHERS) {
            throw tooMany();
        }
        return current(names, compartment);
    }

    private static void demand(boolean isBearable) {
        if (!isBearable) {
            throw new SearchRefusedException(
                    "more resources than one answer can have; ask for one mother, for fewer codes"
                            + " or for a smaller max");
        }
    }

    private static SearchRefusedException tooMany() {
        return new SearchRefusedException("more than " + MOST_OTHERS
                + " resources would be included; ask for a smaller _count or fewer of _include and _revinclude");
    }

    private record Worded(String name, String words) {}

    private List<Worded> words(String type, List<String> ids) {
        return jdbc.sql("select id, words from current_version where type = :type and id in (:ids)")
                .param("type", type)
                .param("ids", ids)
                .query((row, n) -> new Worded(type + "/" + row.getString(1), row.getString(2)))
                .list();
    }

    // What refers to a resource stands in the same cases.
    private List<Worded> wordsInCases(String type, String ofType, List<String> ids) {
        String cases = SHARED.contains(ofType)
                ? ""
                : "and c.case_key in (select n.case_key from current_version n where n.type = :ofType and n.id in (:ids))";
        List<Worded> all = jdbc.sql(
                        "select c.id, c.words from current_version c where c.type = :type " + cases + " limit :most")
                .param("type", type)
                .param("ofType", ofType)
                .param("ids", ids)
                .param("most", MOST_LOOKED_AT + 1)
                .query((row, n) -> new Worded(type + "/" + row.getString(1), row.getString(2)))
                .list();
        if (all.size() > MOST_LOOKED_AT) {
            throw tooMany();
        }
        return all;
    }

    /**
     * Hands out, with the key of its case, the current version of each resource of a type in these cases, as JSON.
     *
     * @param codes of any of these codes alone; none: of any
     */
    public void eachOf(Collection<String> caseKeys, String type, Set<String> codes, BiConsumer<String, String> told) {
        Binding binding = new Binding();
        String coded = codes.stream()
                .map(it ->
                        dialect.contains("c.words", binding.bind(IndexWords.part(CODE, new Criterion.Value(null, it)))))
                .collect(Collectors.joining(" or "));
        jdbc.sql("select c.case_key, v.content from " + CONTENT + " where c.case_key in (:keys) and c.type = :type"
                        + (coded.isEmpty() ? "" : " and (" + coded + ")"))
                .param("keys", caseKeys)
                .param("type", type)
                .params(binding.values())
                .query(row -> {
                    told.accept(row.getString(1), row.getString(2));
                });
    }

    /** The current versions of those of these resources of the searched type, by their ids, that fulfil a search. */
    public List<FoundVersion> matching(SearchRequest request, Collection<String> ids, Compartment compartment) {
        List<FoundVersion> matching = new ArrayList<>();
        ResourceNames.byType(ids.stream().map(it -> request.type() + "/" + it).toList(), (type, some) -> {
            SearchSql sql = SearchSql.of(request, compartment, dialect);
            matching.addAll(jdbc.sql("select " + COLUMNS + " from " + CONTENT + " where " + sql.where()
                            + " and c.id in (:ids) order by c.id")
                    .params(sql.values())
                    .param("ids", some)
                    .query((row, n) -> FoundVersion.of(row))
                    .list());
        });
        return matching;
    }

    /** The current versions of those of these resources ({@code Type/id}) that there are in that compartment. */
    public List<FoundVersion> current(Collection<String> names, Compartment compartment) {
        List<FoundVersion> found = new ArrayList<>();
        ResourceNames.byType(names, (type, ids) -> {
            Binding binding = new Binding();
            found.addAll(
                    jdbc.sql("select " + COLUMNS + " from " + CONTENT + " where c.type = :type and c.id in (:ids) and "
                                    + compartment.ofResource("c", binding::bind) + " order by c.id")
                            .param("type", type)
                            .param("ids", ids)
                            .params(binding.values())
                            .query((row, n) -> FoundVersion.of(row))
                            .list());
        });
        return found;
    }
}
