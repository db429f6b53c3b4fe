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
        XhtmlNode div = div();
        lines.forEach(it -> div.addTag("p").addText(it));
        return generated(div);
    }

    /** A generated narrative of one list item a line. */
    public static Narrative listOf(List<String> lines) {
        XhtmlNode div = div();
        XhtmlNode list = div.addTag("ul");
        lines.forEach(it -> list.addTag("li").addText(it));
        return generated(div);
    }

    /** What a narrative made here says, its lines joined; empty when there is none. */
    public static String text(Narrative narrative) {
        XhtmlNode div = narrative.getDiv();
        return div == null
                ? ""
                : div.getChildNodes().stream().map(XhtmlNode::allText).collect(Collectors.joining(" "));
    }

    private static XhtmlNode div() {
        return new XhtmlNode(NodeType.Element, "div").setAttribute("xmlns", XHTML);
    }

    private static Narrative generated(XhtmlNode div) {
        Narrative narrative = new Narrative();
        narrative.setStatus(Narrative.NarrativeStatus.GENERATED);
        narrative.setDiv(div);
        return narrative;
    }
}
