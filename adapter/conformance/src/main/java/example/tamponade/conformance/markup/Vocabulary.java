package example.tamponade.conformance.markup;

import java.util.Set;

/**
 * The elements and attributes that a narrative may use.
 *
 * <p>Source: FHIR R4, <a href="http://hl7.org/fhir/R4/narrative.html#xhtml">Narrative, limited XHTML content</a>: HTML 4.0
 * chapters 7 to 11 and 15, links and images.
 */
final class Vocabulary {

    private static final Set<String> ELEMENTS = Set.of(
            "p",
            "br",
            "div",
            "h1",
            "h2",
            "h3",
            "h4",
            "h5",
            "h6",
            "a",
            "span",
            "b",
            "em",
            "i",
            "strong",
            "small",
            "big",
            "tt",
            "dfn",
            "q",
            "var",
            "abbr",
            "acronym",
            "cite",
            "blockquote",
            "hr",
            "address",
            "bdo",
            "kbd",
            "sub",
            "sup",
            "ul",
            "ol",
            "li",
            "dl",
            "dt",
            "dd",
            "pre",
            "table",
            "caption",
            "colgroup",
            "col",
            "thead",
            "tr",
            "tfoot",
            "tbody",
            "th",
            "td",
            "code",
            "samp",
            "img",
            "map",
            "area");
    private static final Set<String> ATTRIBUTES = Set.of(
            "title",
            "style",
            "class",
            "id",
            "lang",
            "xml:lang",
            "xml:space",
            "dir",
            "accesskey",
            "tabindex",
            "span",
            "width",
            "align",
            "valign",
            "char",
            "charoff",
            "abbr",
            "axis",
            "headers",
            "scope",
            "rowspan",
            "colspan");
    private static final Set<String> OF_ELEMENTS = Set.of(
            "a.href",
            "a.name",
            "img.src",
            "img.border",
            "blockquote.cite",
            "q.cite",
            "a.charset",
            "a.type",
            "a.hreflang",
            "a.rel",
            "a.rev",
            "a.shape",
            "a.coords",
            "img.alt",
            "img.longdesc",
            "img.height",
            "img.usemap",
            "img.ismap",
            "map.name",
            "area.shape",
            "area.coords",
            "area.href",
            "area.nohref",
            "area.alt",
            "table.summary",
            "table.border",
            "table.frame",
            "table.rules",
            "table.cellspacing",
            "table.cellpadding",
            "pre.space",
            "td.nowrap");

    private Vocabulary() {}

    static boolean hasElement(String name) {
        return ELEMENTS.contains(name);
    }

    static boolean hasAttribute(String element, String name) {
        return name.startsWith("xmlns") || ATTRIBUTES.contains(name) || OF_ELEMENTS.contains(element + "." + name);
    }
}
