package example.tamponade.app.summary;

import java.util.Locale;
import java.util.Map;
import org.thymeleaf.TemplateEngine;
import org.thymeleaf.context.Context;
import org.thymeleaf.templatemode.TemplateMode;
import org.thymeleaf.templateresolver.ClassLoaderTemplateResolver;

/** Fills in a template of a page; what is filled in is text, never markup. */
public enum PageTemplate {
    /** Plain text, for a terminal or a printer. */
    TEXT(TemplateMode.TEXT),
    /** HTML. */
    HTML(TemplateMode.HTML);

    private final TemplateEngine engine;

    PageTemplate(TemplateMode mode) {
        ClassLoaderTemplateResolver resolver = new ClassLoaderTemplateResolver();
        resolver.setPrefix("templates/");
        resolver.setTemplateMode(mode);
        resolver.setCharacterEncoding("UTF-8");
        this.engine = new TemplateEngine();
        this.engine.setTemplateResolver(resolver);
    }

    /** The page of that template with these values. */
    public String of(String template, Map<String, Object> values) {
        return engine.process(template, new Context(Locale.ROOT, values));
    }
}
