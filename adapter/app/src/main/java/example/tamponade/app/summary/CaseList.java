package example.tamponade.app.summary;

import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.search.RecordSearch;
import example.tamponade.app.search.StandingFlag;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The cases on record for somebody who looks for one: those that are open first, and of these those with the gravest warnings. */
public final class CaseList {

    /** How many rows a page has. */
    public static final int MOST = 200;

    private static final JsonMapper JSON = JsonMapper.builder().build();
    private static final int TOGETHER = 50;

    private final RecordSearch search;

    /** Lists cases of that record. */
    public CaseList(RecordSearch search) {
        this.search = search;
    }

    /**
     * A case.
     *
     * @param name its facility and number, as in its address
     * @param began when it began, by the clock there
     * @param isOpen whether it is open
     * @param high how many warnings of high severity stand
     * @param moderate how many of moderate severity
     * @param low how many of low severity
     */
    public record Row(String name, String began, boolean isOpen, int high, int moderate, int low) {

        /** The warnings that stand, in words. */
        public String warnings() {
            return high + moderate + low == 0
                    ? "none is on record"
                    : high + " high, " + moderate + " moderate, " + low + " low";
        }
    }

    /** The rows of these cases, by their keys. */
    public List<Row> rows(List<String> caseKeys) {
        List<Row> rows = new ArrayList<>();
        for (int from = 0; from < caseKeys.size(); from += TOGETHER) {
            List<String> some = caseKeys.subList(from, Math.min(caseKeys.size(), from + TOGETHER));
            Map<String, Map<String, Integer>> standing = standing(some);
            search.eachOf(
                    some,
                    "EpisodeOfCare",
                    Set.of(),
                    (key, content) -> rows.add(row(key, JSON.readTree(content), standing.getOrDefault(key, Map.of()))));
        }
        rows.sort(Comparator.comparing(Row::isOpen)
                .thenComparing(Row::high)
                .thenComparing(Row::began)
                .reversed());
        return rows;
    }

    private Map<String, Map<String, Integer>> standing(List<String> caseKeys) {
        Map<String, Map<String, Integer>> standing = new HashMap<>();
        search.eachOf(
                caseKeys,
                "Flag",
                Set.of(),
                (key, content) -> StandingFlag.of(content)
                        .ifPresent(it -> standing.computeIfAbsent(key, one -> new HashMap<>())
                                .merge(it.severity(), 1, Integer::sum)));
        return standing;
    }

    private static Row row(String key, JsonNode episode, Map<String, Integer> standing) {
        return new Row(
                String.valueOf(CaseKey.caseId(key)),
                episode.path("period").path("start").asString("").replaceFirst("T(..:..).*", " $1"),
                episode.path("status").asString("").equals("active"),
                standing.getOrDefault("high", 0),
                standing.getOrDefault("moderate", 0),
                standing.getOrDefault("low", 0));
    }
}
