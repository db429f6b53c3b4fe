package example.tamponade.app.search;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A page of what was found.
 *
 * @param matches what fulfils the search, in its order
 * @param others what was included with it
 * @param next where the next page begins; null when there is none
 * @param total how many match in all; null when nobody asked
 */
public record FoundPage(
        List<FoundVersion> matches,
        List<FoundVersion> others,
        @Nullable String next,
        @Nullable Long total) {}
