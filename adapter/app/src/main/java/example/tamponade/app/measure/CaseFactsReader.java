package example.tamponade.app.measure;

import example.tamponade.app.search.RecordSearch;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tools.jackson.databind.json.JsonMapper;

/** Reads what measures ask for of many cases. */
final class CaseFactsReader {

    private static final JsonMapper JSON = JsonMapper.builder()
            .enable(tools.jackson.databind.DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .build();

    private static final Set<String> FACTS = Set.of(
            "birth-to-recognition",
            "birth-to-antifibrinolytic",
            "recognition-to-first-response-complete",
            "insertion-to-control",
            "time-in-situ",
            "outcome-class",
            "deflation-step-volume",
            "recognition-to-referral",
            "referral-to-departure",
            "near-miss-criteria");

    private static final int TOGETHER = 25;

    private final RecordSearch search;

    CaseFactsReader(RecordSearch search) {
        this.search = search;
    }

    /** The facts of each of these cases, by its key, in their order. */
    Map<String, CaseFacts> of(List<String> caseKeys) {
        Map<String, CaseFacts> facts = new LinkedHashMap<>();
        caseKeys.forEach(it -> facts.put(it, new CaseFacts()));
        for (int from = 0; from < caseKeys.size(); from += TOGETHER) {
            List<String> some = caseKeys.subList(from, Math.min(caseKeys.size(), from + TOGETHER));
            search.eachOf(some, "Observation", FACTS, (key, content) -> add(facts, key, content));
            search.eachOf(some, "Flag", Set.of(), (key, content) -> add(facts, key, content));
        }
        return facts;
    }

    private static void add(Map<String, CaseFacts> facts, String key, String content) {
        CaseFacts ofCase = facts.get(key);
        if (ofCase != null) {
            ofCase.add(JSON.readTree(content));
        }
    }
}
