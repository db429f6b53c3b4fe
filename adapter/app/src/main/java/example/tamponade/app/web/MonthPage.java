package example.tamponade.app.web;

import example.tamponade.app.measure.ControlChart;
import example.tamponade.app.measure.MeasureCount;
import example.tamponade.app.measure.MonthOfCare;
import example.tamponade.app.summary.PageTemplate;
import example.tamponade.fhir.mapping.CaseMapper;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.json.JsonMapper;

/** A month of care on one page: each measure in the month, over a year, and of each facility. */
final class MonthPage {

    private static final JsonMapper JSON = JsonMapper.builder().build();
    private static final String TOO_FEW = "too few to tell";

    // Of fewer cases limits say nothing: common practice, no source.
    private static final int ENOUGH = 5;

    private MonthPage() {}

    static String of(
            YearMonth month,
            @Nullable String facility,
            List<MonthOfCare.Row> rows,
            Function<MeasureCount, String> titles,
            Function<MeasureCount, String> better,
            Predicate<MeasureCount> isTold) {
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("caution", CaseMapper.CAUTION);
        values.put("month", month.toString());
        values.put("before", address(month.minusMonths(1), facility));
        values.put("after", address(month.plusMonths(1), facility));
        values.put("whose", facility == null ? "all facilities that you may see" : facility);
        values.put("cases", rows.get(0).count().cases());
        values.put(
                "rows",
                rows.stream()
                        .map(it -> row(it, titles.apply(it.count()), better.apply(it.count()), isTold))
                        .toList());
        values.put("facilities", facility == null);
        values.put("charts", charts(rows, titles));
        return PageTemplate.HTML.of("month.html", values);
    }

    private static String address(YearMonth month, @Nullable String facility) {
        return "/measures?as=page&month=" + month + (facility == null ? "" : "&facility=" + facility);
    }

    private static Map<String, Object> row(
            MonthOfCare.Row row, String title, String better, Predicate<MeasureCount> isTold) {
        MeasureCount count = row.count();
        boolean told = isTold.test(count);
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("title", title);
        values.put("better", better);
        values.put("asked", told ? count.asked().size() : TOO_FEW);
        values.put("met", told ? count.met().size() : TOO_FEW);
        values.put(
                "share",
                !told
                        ? TOO_FEW
                        : count.share().isEmpty()
                                ? "no case"
                                : percent(count.share().getAsDouble()));
        values.put("signals", signals(row.months(), "month"));
        values.put("facilities", signals(row.facilities(), "facility"));
        return values;
    }

    // What chance alone would hardly bring; that there is nothing of it says nothing of the care.
    private static String signals(ControlChart chart, String what) {
        List<String> words = chart.points().stream()
                .filter(it -> it.signal() != ControlChart.Signal.NONE)
                .map(it -> it.count().label() + " (" + percent(it.share()) + " of "
                        + it.count().asked() + ") "
                        + (it.signal() == ControlChart.Signal.BEYOND
                                ? "beyond the limits " + percent(it.lower()) + " to " + percent(it.upper())
                                : "eight or more in a row on one side"))
                .toList();
        long counted = chart.points().stream()
                .filter(it -> it.count().asked() >= ENOUGH)
                .count();
        return counted < 2 && words.isEmpty()
                ? "too few cases to compare"
                : words.isEmpty() ? "no " + what + " beyond what chance brings" : String.join("; ", words);
    }

    private static String percent(double share) {
        return String.format(Locale.ROOT, "%.1f %%", 100 * share);
    }

    private static String charts(List<MonthOfCare.Row> rows, Function<MeasureCount, String> titles) {
        List<Map<String, Object>> charts = rows.stream()
                .map(it -> {
                    Map<String, Object> chart = new LinkedHashMap<>();
                    chart.put("title", titles.apply(it.count()));
                    chart.put("centre", number(it.months().centre()));
                    chart.put(
                            "months",
                            it.months().points().stream()
                                    .map(point -> point.count().label())
                                    .toList());
                    chart.put("share", numbers(it.months(), ControlChart.Point::share));
                    chart.put("lower", numbers(it.months(), ControlChart.Point::lower));
                    chart.put("upper", numbers(it.months(), ControlChart.Point::upper));
                    return chart;
                })
                .toList();
        return JSON.writeValueAsString(charts).replace("<", "\\u003c");
    }

    private static List<@Nullable Double> numbers(ControlChart chart, Function<ControlChart.Point, Double> value) {
        List<@Nullable Double> numbers = new ArrayList<>();
        chart.points().forEach(it -> numbers.add(number(value.apply(it))));
        return numbers;
    }

    // In percent; nothing was counted where there is none.
    private static @Nullable Double number(double share) {
        return Double.isNaN(share) ? null : Math.round(share * 1000) / 10.0;
    }
}
