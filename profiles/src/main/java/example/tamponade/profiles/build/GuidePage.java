package example.tamponade.profiles.build;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;

/** A page in HTML that is put together part by part; every text is escaped. */
final class GuidePage {

    private static final String STYLE = "body{font:15px/1.45 sans-serif;max-width:64em;margin:2em auto;padding:0 1em}"
            + "table{border-collapse:collapse}td,th{border:1px solid #bbb;padding:.2em .6em;text-align:left;"
            + "vertical-align:top}pre{background:#f4f4f4;padding:.8em;overflow-x:auto}code{background:#f4f4f4}"
            + ".caution{border-left:.3em solid #a40;padding-left:.8em}";

    private final StringBuilder html = new StringBuilder();

    GuidePage(String title) {
        html.append("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">")
                .append("<meta name=\"viewport\" content=\"width=device-width\"><title>")
                .append(escaped(title))
                .append("</title><style>")
                .append(STYLE)
                .append("</style></head><body>\n<h1>")
                .append(escaped(title))
                .append("</h1>\n");
    }

    GuidePage heading(String text) {
        html.append("<h2>").append(escaped(text)).append("</h2>\n");
        return this;
    }

    GuidePage paragraph(String text) {
        html.append("<p>").append(escaped(text)).append("</p>\n");
        return this;
    }

    GuidePage caution(String text) {
        html.append("<p class=\"caution\">").append(escaped(text)).append("</p>\n");
        return this;
    }

    GuidePage link(String page, String text, String behind) {
        html.append("<p><a href=\"")
                .append(escaped(page))
                .append("\">")
                .append(escaped(text))
                .append("</a>: ")
                .append(escaped(behind))
                .append("</p>\n");
        return this;
    }

    GuidePage json(ObjectNode resource) {
        html.append("<pre>").append(escaped(resource.toPrettyString())).append("</pre>\n");
        return this;
    }

    GuidePage table(List<String> head, List<List<String>> rows) {
        html.append("<table><thead>");
        row("th", head);
        html.append("</thead><tbody>\n");
        rows.forEach(it -> row("td", it));
        html.append("</tbody></table>\n");
        return this;
    }

    private void row(String cell, List<String> texts) {
        html.append("<tr>");
        texts.forEach(it -> html.append('<')
                .append(cell)
                .append('>')
                .append(escaped(it))
                .append("</")
                .append(cell)
                .append('>'));
        html.append("</tr>\n");
    }

    String html() {
        return html + "</body></html>\n";
    }

    /** The texts of a list of nodes. */
    static List<String> texts(JsonNode nodes) {
        List<String> texts = new ArrayList<>();
        nodes.forEach(it -> texts.add(it.asText()));
        return texts;
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }
}
