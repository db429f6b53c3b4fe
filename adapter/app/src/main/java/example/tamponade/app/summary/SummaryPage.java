package example.tamponade.app.summary;

import example.tamponade.fhir.mapping.CaseMapper;
import java.util.List;
import java.util.Map;

/** Writes the page of a case as plain text or as HTML. */
public enum SummaryPage {
    /** Plain text, for a terminal or a printer. */
    TEXT(PageTemplate.TEXT, "summary.txt"),
    /** A self-contained HTML page. */
    HTML(PageTemplate.HTML, "summary.html");

    private final PageTemplate mode;
    private final String template;

    SummaryPage(PageTemplate mode, String template) {
        this.mode = mode;
        this.template = template;
    }

    /** The page. */
    public String of(CaseSummary summary) {
        return mode.of(template, Map.of("case", summary));
    }

    /** The page with its charts, which a server gives what they need. */
    public String of(CaseSummary summary, Course course) {
        return mode.of(template, Map.of("case", summary, "course", course.json()));
    }

    /**
     * A page that lists cases, for a browser.
     *
     * @param behind how many events were taken and are not on record yet
     */
    public static String ofCases(List<CaseList.Row> rows, long behind) {
        List<CaseList.Row> shown = rows.subList(0, Math.min(rows.size(), CaseList.MOST));
        String words = rows.size() > shown.size()
                ? "The first " + shown.size() + " of " + rows.size()
                        + " cases: those that are open and have the most warnings."
                : rows.size() + " cases, those that are open first.";
        return PageTemplate.HTML.of(
                "cases.html", Map.of("rows", shown, "words", words, "behind", behind, "caution", CaseMapper.CAUTION));
    }
}
