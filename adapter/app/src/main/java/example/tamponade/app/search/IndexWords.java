package example.tamponade.app.search;

import java.util.Collection;
import java.util.List;
import java.util.stream.Stream;

/**
 * What a resource can be searched by, as one text: for each value a line of path, value, system and path again, with tabs
 * between, so that each way of asking for one is a part that no other line has.
 */
final class IndexWords {

    private static final String LINE = "\n";
    private static final String TAB = "\t";

    private IndexWords() {}

    static String of(Collection<IndexRows.Value> values) {
        StringBuilder words = new StringBuilder(LINE);
        values.forEach(
                it -> words.append(line(it.path(), it.value(), it.system())).append(LINE));
        return words.toString();
    }

    private static String line(String path, String value, String system) {
        return String.join(TAB, path, clean(value), clean(system), path);
    }

    // Neither is in a code, an id or an address; an identifier that has one is found by a space there. What most
    // addresses
    // begin with is written short: there are many.
    private static String clean(String text) {
        return text.replace('\t', ' ')
                .replace('\n', ' ')
                .replace("https://tamponade-adapter.example/fhir/", "~")
                .replace("http://terminology.hl7.org/CodeSystem/", "^");
    }

    /** The part that a text has when it has that value there. */
    static String part(String path, Criterion.Value value) {
        if (value.value() == null) {
            return TAB + clean(String.valueOf(value.system())) + TAB + path + LINE;
        }
        return value.system() == null
                ? LINE + path + TAB + clean(value.value()) + TAB
                : LINE + line(path, value.value(), value.system()) + LINE;
    }

    /** The part that a text has when it has any value there. */
    static String part(String path) {
        return LINE + path + TAB;
    }

    /** What stands before the id, and behind it, of what a resource refers to there. */
    static List<String> aroundId(String path, String type) {
        return List.of(LINE + path + TAB, TAB + type + TAB + path + LINE);
    }

    /** What it refers to ({@code Type/id}) at those paths. */
    static List<String> references(String words, Collection<String> paths) {
        return lines(words)
                .filter(it -> paths.contains(it[0]))
                .map(it -> it[2] + "/" + it[1])
                .toList();
    }

    /** Its values at a path, each with its system. */
    static List<String> values(String words, String path) {
        return lines(words)
                .filter(it -> it[0].equals(path))
                .map(it -> it[2] + "|" + it[1])
                .toList();
    }

    private static Stream<String[]> lines(String words) {
        return Stream.of(words.split(LINE)).map(it -> it.split(TAB, -1)).filter(it -> it.length == 4);
    }
}
