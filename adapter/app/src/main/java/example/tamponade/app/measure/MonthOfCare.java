package example.tamponade.app.measure;

import example.tamponade.app.access.Compartment;
import example.tamponade.app.export.CaseGroup;
import example.tamponade.app.export.GroupedCases;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** The measures of a month beside those of the months before it, and of each facility beside all. */
public final class MonthOfCare {

    private static final int MONTHS = 12;

    private final Measures measures;
    private final GroupedCases cases;

    /** Counts by these measures over those cases. */
    public MonthOfCare(Measures measures, GroupedCases cases) {
        this.measures = measures;
        this.cases = cases;
    }

    /**
     * One measure.
     *
     * @param count its count in the month
     * @param months the share in each of twelve months, this one the last
     * @param facilities the share of each facility over the twelve months; empty where one was asked for
     */
    public record Row(MeasureCount count, ControlChart months, ControlChart facilities) {}

    /**
     * The rows of all measures.
     *
     * @param facilityId the facility; null: all
     * @param isTold whether a count may be told; others are as if nothing had been counted
     */
    public List<Row> rows(
            YearMonth month, @Nullable String facilityId, Compartment compartment, Predicate<MeasureCount> isTold) {
        List<MeasureRule> rules = List.of(MeasureRule.values());
        Map<String, List<MeasureCount>> byMonth = new TreeMap<>();
        for (int back = 0; back < MONTHS; back++) {
            YearMonth one = month.minusMonths(back);
            byMonth.put(one.toString(), measures.count(rules, period(one, one, facilityId), compartment));
        }
        Map<String, List<MeasureCount>> byFacility = new TreeMap<>();
        if (facilityId == null) {
            YearMonth first = month.minusMonths(MONTHS - 1L);
            facilities(compartment)
                    .forEach(it -> byFacility.put(it, measures.count(rules, period(first, month, it), compartment)));
        }
        List<Row> rows = new ArrayList<>();
        for (int i = 0; i < rules.size(); i++) {
            rows.add(new Row(
                    Objects.requireNonNull(byMonth.get(month.toString())).get(i),
                    ControlChart.of(counts(byMonth, i, isTold), ControlChart.CONTROL),
                    ControlChart.of(counts(byFacility, i, isTold), ControlChart.FUNNEL_998)));
        }
        return rows;
    }

    private static Measures.Period period(YearMonth from, YearMonth to, @Nullable String facilityId) {
        return new Measures.Period(from.atDay(1), to.atEndOfMonth(), facilityId);
    }

    private List<String> facilities(Compartment compartment) {
        return cases.groups(compartment).stream()
                .filter(it -> it.month() == null && it.facilityId() != null)
                .map(CaseGroup::facilityId)
                .map(String::valueOf)
                .sorted()
                .toList();
    }

    private static List<ControlChart.Count> counts(
            Map<String, List<MeasureCount>> byLabel, int rule, Predicate<MeasureCount> isTold) {
        List<ControlChart.Count> counts = new ArrayList<>();
        byLabel.forEach((label, all) -> {
            MeasureCount count = all.get(rule);
            counts.add(
                    isTold.test(count)
                            ? new ControlChart.Count(
                                    label, count.asked().size(), count.met().size())
                            : new ControlChart.Count(label, 0, 0));
        });
        return counts;
    }
}
