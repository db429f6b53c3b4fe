package example.tamponade.app.summary;

import example.tamponade.fhir.mapping.CaseMapper;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.thymeleaf.TemplateEngine;
import org.thymeleaf.context.Context;
import org.thymeleaf.templatemode.TemplateMode;
import org.thymeleaf.templateresolver.ClassLoaderTemplateResolver;

/** Writes the page of a case as plain text or as HTML. */
public enum SummaryPage {
    /** Plain text, for a terminal or a printer. */
    TEXT(TemplateMode.TEXT, "summary.txt"),
    /** A self-contained HTML page. */
    HTML(TemplateMode.HTML, "summary.html");

    private final String template;
    private final TemplateEngine engine;

    SummaryPage(TemplateMode mode, String template) {
        this.template = template;
        ClassLoaderTemplateResolver resolver = new ClassLoaderTemplateResolver();
        resolver.setPrefix("templates/");
        resolver.setTemplateMode(mode);
        resolver.setCharacterEncoding("UTF-8");
        this.engine = new TemplateEngine();
        this.engine.setTemplateResolver(resolver);
    }

    /** The page. */
    public String of(CaseSummary summary) {
        return engine.process(template, new Context(Locale.ROOT, Map.of("case", summary)));
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
        return HTML.engine.process(
                "cases.html",
                new Context(
                        Locale.ROOT,
                        Map.of("rows", shown, "words", words, "behind", behind, "caution", CaseMapper.CAUTION)));
    }

    /** The page with its charts, which a server gives what they need. */
    public String of(CaseSummary summary, Course course) {
        return engine.process(template, new Context(Locale.ROOT, Map.of("case", summary, "course", course.json())));
    }
}
