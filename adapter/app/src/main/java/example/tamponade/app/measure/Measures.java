package example.tamponade.app.measure;

import example.tamponade.app.access.Compartment;
import example.tamponade.app.export.GroupedCases;
import example.tamponade.app.search.RecordSearch;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Counts measures over the cases that began in a period, by the clock at the bedside. */
public final class Measures {

    // So that the memory of a year's report does not grow with its cases.
    private static final int TOGETHER = 500;

    private final GroupedCases cases;
    private final CaseFactsReader facts;

    /** Counts over that record. */
    public Measures(GroupedCases cases, RecordSearch search) {
        this.cases = cases;
        this.facts = new CaseFactsReader(search);
    }

    /**
     * What is to be counted.
     *
     * @param from the first day on which a case may have begun
     * @param to the last day
     * @param facilityId the facility that numbered the cases; null: all
     */
    public record Period(
            LocalDate from, LocalDate to, @Nullable String facilityId) {

        public Period {
            if (to.isBefore(from)) {
                throw new IllegalArgumentException("the period ends on " + to + ", before it begins on " + from);
            }
        }
    }

    /** The counts of these measures, in their order, over what that compartment shows. */
    public List<MeasureCount> count(List<MeasureRule> rules, Period period, Compartment compartment) {
        List<String> keys = cases.begunBetween(period.from(), period.to(), period.facilityId(), compartment);
        List<List<String>> asked = lists(rules);
        List<List<String>> met = lists(rules);
        for (int from = 0; from < keys.size(); from += TOGETHER) {
            Map<String, CaseFacts> some = facts.of(keys.subList(from, Math.min(keys.size(), from + TOGETHER)));
            for (int i = 0; i < rules.size(); i++) {
                sort(rules.get(i), some, asked.get(i), met.get(i));
            }
        }
        List<MeasureCount> counts = new ArrayList<>();
        for (int i = 0; i < rules.size(); i++) {
            counts.add(new MeasureCount(rules.get(i), keys.size(), asked.get(i), met.get(i)));
        }
        return counts;
    }

    private static List<List<String>> lists(List<MeasureRule> rules) {
        List<List<String>> lists = new ArrayList<>();
        rules.forEach(it -> lists.add(new ArrayList<>()));
        return lists;
    }

    private static void sort(MeasureRule rule, Map<String, CaseFacts> cases, List<String> asked, List<String> met) {
        cases.forEach((key, facts) -> {
            MeasureRule.Standing standing = rule.standing(facts);
            if (standing != MeasureRule.Standing.NOT_ASKED) {
                asked.add(key);
            }
            if (standing == MeasureRule.Standing.MET) {
                met.add(key);
            }
        });
    }
}
