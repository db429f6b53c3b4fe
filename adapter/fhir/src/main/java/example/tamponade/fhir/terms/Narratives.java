package example.tamponade.fhir.terms;

import java.util.List;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Narrative;
import org.hl7.fhir.utilities.xhtml.NodeType;
import org.hl7.fhir.utilities.xhtml.XhtmlNode;

/** The part of a resource that a person reads. */
public final class Narratives {

    private static final String XHTML = "http://www.w3.org/1999/xhtml";

    private Narratives() {}

    /** A generated narrative of one paragraph a line. */
    public static Narrative of(List<String> lines) {
        return ofParts(lines.stream().map(Narratives::paragraph).toList());
    }

    /** A generated narrative of these parts, one after another. */
    public static Narrative ofParts(List<XhtmlNode> parts) {
        XhtmlNode div = new XhtmlNode(NodeType.Element, "div").setAttribute("xmlns", XHTML);
        parts.forEach(div::addChildNode);
        return generated(div);
    }

    /** A paragraph, to be part of a narrative. */
    public static XhtmlNode paragraph(String text) {
        XhtmlNode paragraph = new XhtmlNode(NodeType.Element, "p");
        paragraph.addText(text);
        return paragraph;
    }

    /**
     * A table, to be part of a narrative.
     *
     * @param head what stands over each column
     * @param rows the rows, each as long as the head
     */
    public static XhtmlNode table(List<String> head, List<List<String>> rows) {
        XhtmlNode table = new XhtmlNode(NodeType.Element, "table");
        XhtmlNode first = table.addTag("thead").addTag("tr");
        head.forEach(it -> first.addTag("th").addText(it));
        XhtmlNode body = table.addTag("tbody");
        for (List<String> row : rows) {
            XhtmlNode line = body.addTag("tr");
            row.forEach(it -> line.addTag("td").addText(it));
            // A time is read at a glance, in one line.
            line.getFirstElement().setAttribute("style", "white-space: nowrap");
        }
        return table;
    }

    /** A generated narrative of one list item a line. */
    public static Narrative listOf(List<String> lines) {
        XhtmlNode list = new XhtmlNode(NodeType.Element, "ul");
        lines.forEach(it -> list.addTag("li").addText(it));
        return ofParts(List.of(list));
    }

    /** What a narrative made here says, its lines joined; empty when there is none. */
    public static String text(Narrative narrative) {
        return lines(narrative).stream().collect(Collectors.joining(" "));
    }

    /** Each paragraph of a narrative made here. */
    public static List<String> lines(Narrative narrative) {
        XhtmlNode div = narrative.getDiv();
        return div == null
                ? List.of()
                : div.getChildNodes().stream().map(XhtmlNode::allText).toList();
    }

    private static Narrative generated(XhtmlNode div) {
        Narrative narrative = new Narrative();
        narrative.setStatus(Narrative.NarrativeStatus.GENERATED);
        narrative.setDiv(div);
        return narrative;
    }
}
