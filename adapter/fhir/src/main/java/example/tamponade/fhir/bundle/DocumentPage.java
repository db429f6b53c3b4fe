package example.tamponade.fhir.bundle;

import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.utilities.xhtml.NodeType;
import org.hl7.fhir.utilities.xhtml.XhtmlComposer;
import org.hl7.fhir.utilities.xhtml.XhtmlNode;

/** A case document as one page for a browser or for print, which needs nothing from elsewhere. */
public final class DocumentPage {

    // Calm, in two tones at night, and close enough for paper. A row is not cut by the end of a sheet.
    private static final String STYLE = """
            :root { color-scheme: light dark; --line: #9aa4ad; --far: #f3f5f7; }
            @media (prefers-color-scheme: dark) { :root { --line: #5b6670; --far: #1d2226; } }
            body { font: 15px/1.4 system-ui, sans-serif; max-width: 60rem; margin: 1rem auto; padding: 0 1rem; }
            h1 { font-size: 1.35rem; margin: 0 0 .4rem; }
            h2 { font-size: 1.05rem; margin: 1.1rem 0 .3rem; border-bottom: 1px solid var(--line); }
            p { margin: .3rem 0; overflow-wrap: anywhere; }
            table { border-collapse: collapse; margin: .3rem 0; font-variant-numeric: tabular-nums; }
            th, td { text-align: left; vertical-align: top; padding: .12rem .7rem .12rem 0; }
            th { font-weight: 600; border-bottom: 1px solid var(--line); }
            tbody tr:nth-child(even) { background: var(--far); }
            section { overflow-x: auto; }
            @media print {
              body { font-size: 9.5pt; line-height: 1.25; max-width: none; margin: 0; padding: 0; }
              h2 { margin-top: .6rem; break-after: avoid; }
              tr { break-inside: avoid; }
            }
            """;

    private DocumentPage() {}

    /**
     * The page.
     *
     * @param document a case document
     * @return HTML, to be written in UTF-8
     */
    public static String of(Bundle document) {
        return "<!doctype html>\n" + new XhtmlComposer(XhtmlComposer.HTML).compose(html(document, STYLE)) + "\n";
    }

    /** The page in that look. */
    static XhtmlNode html(Bundle document, String style) {
        Composition composition = (Composition) document.getEntryFirstRep().getResource();
        XhtmlNode html = new XhtmlNode(NodeType.Element, "html").setAttribute("lang", "en");
        XhtmlNode head = html.addTag("head");
        head.addTag("meta").setAttribute("charset", "utf-8");
        head.addTag("meta")
                .setAttribute("name", "viewport")
                .setAttribute("content", "width=device-width, initial-scale=1");
        head.addTag("title").addText(composition.getTitle());
        head.addTag("style").addText(style);
        XhtmlNode body = html.addTag("body");
        body.addTag("h1").addText(composition.getTitle());
        add(body, composition.getText().getDiv());
        for (Composition.SectionComponent section : composition.getSection()) {
            XhtmlNode part = body.addTag("section");
            part.addTag("h2").addText(section.getTitle());
            add(part, section.getText().getDiv());
        }
        return html;
    }

    private static void add(XhtmlNode parent, XhtmlNode narrative) {
        narrative.getChildNodes().forEach(parent::addChildNode);
    }
}
