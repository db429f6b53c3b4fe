package example.tamponade.conformance.markup;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** A narrative's markup, read once from its beginning to its end. */
public final class Narrative {

    private static final String XHTML = "http://www.w3.org/1999/xhtml";

    private static final Set<String> ENTITIES = Set.of("lt", "gt", "amp", "quot", "apos");
    // Active content, and what leads nowhere outside of a message.
    private static final Set<String> FORBIDDEN_SCHEMES = Set.of("javascript", "vbscript", "urn", "cid");
    private static final Pattern NUMBER = Pattern.compile("#(\\d+|x[0-9A-Fa-f]+)");

    // The checks of one narrative follow one another, and each asks something else of it.
    private static final ThreadLocal<Narrative> LAST = ThreadLocal.withInitial(() -> new Narrative("none"));

    private final String text;
    private final Deque<String> open = new ArrayDeque<>();
    private int at;
    private @Nullable String error;
    private boolean allowed = true;
    private boolean content;
    private @Nullable String namespace;
    private @Nullable String root;

    private Narrative(String text) {
        this.text = text;
    }

    /** Reads a narrative; what is wrong with it can be asked of the result. */
    public static Narrative read(String text) {
        Narrative narrative = LAST.get();
        if (!narrative.text.equals(text)) {
            narrative = new Narrative(text);
            narrative.read();
            LAST.set(narrative);
        }
        return narrative;
    }

    /** Why it is no well-formed XHTML of one {@code div}; null when it is. */
    public @Nullable String error() {
        return error;
    }

    /** Whether it uses only what narratives may use. One that cannot be read has its error, and is not judged further. */
    public boolean isAllowed() {
        return error != null || allowed;
    }

    /** Whether it says anything: text that is not blank, or an image. One that cannot be read is not judged. */
    public boolean hasContent() {
        return error != null || content;
    }

    private void read() {
        if (!text.startsWith("<")) {
            error = "does not start with a tag";
        }
        while (error == null && at < text.length()) {
            if (text.charAt(at) == '<') {
                tag();
            } else {
                characters();
            }
        }
        if (error == null && !open.isEmpty()) {
            error = "the element " + open.peek() + " is not closed";
        }
        if (error == null && !"div".equals(root)) {
            error = "the root is " + root + " and should be div";
        }
        if (error == null && !XHTML.equals(namespace)) {
            error = "Wrong namespace on the XHTML ('" + namespace + "', should be '" + XHTML + "')";
        }
    }

    private void characters() {
        int end = text.indexOf('<', at);
        end = end < 0 ? text.length() : end;
        for (int i = at; i < end; i++) {
            char c = text.charAt(i);
            if (c == '&' && !isEntity(i, end)) {
                error = "an ampersand that begins no entity, at " + i;
            }
            content |= !open.isEmpty() && !Character.isWhitespace(c) && c != '\u00a0';
            if (open.isEmpty() && !Character.isWhitespace(c)) {
                error = "text outside of the root, at " + i;
            }
        }
        at = end;
    }

    // XHTML without a document type has the entities of XML alone.
    private boolean isEntity(int from, int end) {
        int semicolon = text.indexOf(';', from);
        if (semicolon < 0 || semicolon > end) {
            return false;
        }
        String name = text.substring(from + 1, semicolon);
        return ENTITIES.contains(name) || NUMBER.matcher(name).matches();
    }

    private void tag() {
        if (text.startsWith("<!--", at)) {
            skip("-->");
        } else if (text.startsWith("<!", at) || text.startsWith("<?", at)) {
            allowed = allowed && text.startsWith("<?", at);
            skip(">");
        } else if (text.startsWith("</", at)) {
            close();
        } else {
            begin();
        }
    }

    private void skip(String end) {
        int found = text.indexOf(end, at);
        if (found < 0) {
            error = "not closed with " + end + ", from " + at;
        } else {
            at = found + end.length();
        }
    }

    private void close() {
        int end = text.indexOf('>', at);
        String name = end < 0 ? "" : text.substring(at + 2, end).strip();
        if (open.isEmpty() || !open.peek().equals(name)) {
            error = "the end of '" + name + "' closes nothing, at " + at;
            return;
        }
        open.pop();
        at = end + 1;
    }

    private void begin() {
        at++;
        String name = name();
        if (name.isEmpty() || (open.isEmpty() && root != null)) {
            error = name.isEmpty() ? "a tag without a name, at " + at : "a second root, " + name;
            return;
        }
        root = root == null ? name : root;
        allowed &= Vocabulary.hasElement(name);
        content |= name.equals("img");
        boolean outermost = open.isEmpty();
        while (error == null && !endsHere()) {
            attribute(name, outermost);
        }
        if (error == null && text.charAt(at) == '/') {
            at += 2;
        } else if (error == null) {
            open.push(name);
            at++;
        }
    }

    private boolean endsHere() {
        while (at < text.length() && Character.isWhitespace(text.charAt(at))) {
            at++;
        }
        if (at >= text.length()) {
            error = "a tag without an end";
            return true;
        }
        return text.charAt(at) == '>' || text.startsWith("/>", at);
    }

    private void attribute(String element, boolean outermost) {
        String name = name();
        if (name.isEmpty() || at + 1 >= text.length() || text.charAt(at) != '=') {
            error = "an attribute of " + element + " that is not written as name=\"value\", at " + at;
            return;
        }
        char quote = text.charAt(at + 1);
        int end = quote == '"' || quote == '\'' ? text.indexOf(quote, at + 2) : -1;
        if (end < 0) {
            error = "the value of " + name + " is not in quotes, at " + at;
            return;
        }
        if (outermost && name.equals("xmlns")) {
            namespace = text.substring(at + 2, end);
        }
        allowed &= Vocabulary.hasAttribute(element, name);
        if (element.equals("a") && name.equals("href")) {
            link(text.substring(at + 2, end));
        }
        at = end + 1;
    }

    private void link(String to) {
        int colon = to.indexOf(':');
        if (to.isEmpty() || (colon > 0 && FORBIDDEN_SCHEMES.contains(to.substring(0, colon)))) {
            error = "the link '" + to + "' is not allowed";
        }
    }

    private String name() {
        int from = at;
        while (at < text.length() && isOfName(text.charAt(at))) {
            at++;
        }
        return text.substring(from, at);
    }

    private static boolean isOfName(char c) {
        return Character.isLetterOrDigit(c) || c == ':' || c == '-' || c == '_' || c == '.';
    }
}
