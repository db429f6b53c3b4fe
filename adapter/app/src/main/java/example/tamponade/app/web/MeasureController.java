package example.tamponade.app.web;

import example.tamponade.app.access.Caller;
import example.tamponade.app.access.Role;
import example.tamponade.app.measure.MeasureCount;
import example.tamponade.app.measure.MeasureRule;
import example.tamponade.app.measure.Measures;
import example.tamponade.app.measure.MonthOfCare;
import example.tamponade.app.rest.MeasureReports;
import example.tamponade.app.search.PackageDefinitions;
import java.io.IOException;
import java.time.DateTimeException;
import java.time.YearMonth;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.JsonNode;

/** Gives the measures of a month as a table for a spreadsheet. */
@RestController
public class MeasureController {

    private static final MediaType CSV = MediaType.parseMediaType("text/csv;charset=UTF-8");
    private static final String TITLE = "title";
    private static final MediaType HTML = MediaType.parseMediaType("text/html;charset=UTF-8");

    // Its scripts and styles are this server's own; the chart library sets sizes.
    private static final String POLICY =
            "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; base-uri 'none';"
                    + " form-action 'none'; frame-ancestors 'none'";

    private final Measures measures;
    private final MeasureReports reports;
    private final MonthOfCare months;
    private final Map<String, JsonNode> definitions;

    /** Counts by these measures. */
    public MeasureController(Measures measures, MeasureReports reports, MonthOfCare months) {
        this.measures = measures;
        this.months = months;
        this.reports = reports;
        this.definitions = PackageDefinitions.all("Measure").stream()
                .collect(Collectors.toMap(it -> it.required("id").asString(), it -> it));
    }

    /** The measures of the cases that began in a month, of a facility or of all: as a table, or as a page for a browser. */
    @GetMapping("/measures")
    ResponseEntity<String> ofMonth(
            @RequestParam("month") String month,
            @RequestParam(name = "facility", defaultValue = "") String facility,
            @RequestParam(name = "as", defaultValue = "table") String as)
            throws IOException {
        Caller caller = Caller.current();
        if (caller.is(Role.READER)) {
            caller.scopes().demandEverything();
        }
        YearMonth asked = YearMonth.parse(month);
        if (as.equals("page")) {
            return page(asked, facility.isEmpty() ? null : facility, caller);
        }
        Measures.Period period =
                new Measures.Period(asked.atDay(1), asked.atEndOfMonth(), facility.isEmpty() ? null : facility);
        StringBuilder table = new StringBuilder();
        try (CSVPrinter printer = new CSVPrinter(table, CSVFormat.RFC4180)) {
            printer.printRecord(
                    "measure", TITLE, "cases asked", "cases that met it", "share in %", "better is", "source");
            for (MeasureCount count : measures.count(List.of(MeasureRule.values()), period, caller.compartment())) {
                print(printer, count);
            }
        }
        return ResponseEntity.ok().contentType(CSV).body(table.toString());
    }

    private ResponseEntity<String> page(YearMonth month, @Nullable String facility, Caller caller) {
        Predicate<MeasureCount> isTold = it -> !reports.isSuppressed(it);
        return ResponseEntity.ok()
                .contentType(HTML)
                .header("Content-Security-Policy", POLICY)
                .body(MonthPage.of(
                        month,
                        facility,
                        months.rows(month, facility, caller.compartment(), isTold),
                        it -> definition(it).required(TITLE).asString(),
                        it -> isMoreBetter(it) ? "more" : "less",
                        isTold));
    }

    private JsonNode definition(MeasureCount count) {
        return Objects.requireNonNull(definitions.get(count.rule().code()));
    }

    private boolean isMoreBetter(MeasureCount count) {
        return definition(count).path("improvementNotation").toString().contains("increase");
    }

    private void print(CSVPrinter printer, MeasureCount count) throws IOException {
        JsonNode definition = definition(count);
        boolean isSuppressed = reports.isSuppressed(count);
        String share = count.share().isEmpty()
                ? "no case"
                : String.format(Locale.ROOT, "%.1f", 100 * count.share().getAsDouble());
        printer.printRecord(
                count.rule().code(),
                definition.required(TITLE).asString(),
                isSuppressed ? "too few" : count.asked().size(),
                isSuppressed ? "too few" : count.met().size(),
                isSuppressed ? "too few" : share,
                isMoreBetter(count) ? "more" : "less",
                definition.required("rationale").asString());
    }

    @ExceptionHandler
    ResponseEntity<ProblemDetail> noMonth(DateTimeException e) {
        return ResponseEntity.of(ProblemDetail.forStatusAndDetail(
                        HttpStatus.BAD_REQUEST, "month: write a month, for example 2026-03"))
                .build();
    }
}
