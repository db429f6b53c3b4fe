package example.tamponade.app.search;

import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.List;

/**
 * Where a page ends: what came last there. The next page begins behind it, however much was added meanwhile.
 *
 * @param key what it was sorted by; empty for the id alone
 * @param id its id
 */
public record Cursor(String key, String id) {

    /**
     * Reads what {@link #text()} wrote.
     *
     * @throws SearchRefusedException when it did not
     */
    static Cursor of(String text) {
        try {
            List<String> parts =
                    List.of(new String(Base64.getUrlDecoder().decode(text), StandardCharsets.UTF_8).split(" ", -1));
            if (parts.size() == 2) {
                return new Cursor(parts.get(0), parts.get(1));
            }
        } catch (IllegalArgumentException e) {
            // Said below, as for all that is not a cursor.
        }
        throw new SearchRefusedException(SearchRequest.AFTER + ": no page begins at '" + text
                + "'; take the links of the page before as they are");
    }

    String text() {
        return Base64.getUrlEncoder()
                .withoutPadding()
                .encodeToString((key + " " + id).getBytes(StandardCharsets.UTF_8));
    }
}
