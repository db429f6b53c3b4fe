package example.tamponade.app.summary;

import java.math.BigDecimal;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.json.JsonMapper;

/**
 * What the charts of a case's page draw. Times are seconds since 1970 of the clock at the bedside, as if it were in UTC, so
 * that the charts' axes tell its hours.
 *
 * @param now up to when they are drawn
 * @param panels one below the other, with one axis of time
 * @param marks what stands over all of them
 */
public record Course(long now, List<Panel> panels, List<Mark> marks) {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    /**
     * Series that share an axis.
     *
     * @param title what they are
     * @param unit their unit
     */
    public record Panel(String title, String unit, List<Series> series) {}

    /**
     * Readings of one kind, in the order of time.
     *
     * @param label what they are
     * @param isStepped whether a value holds until the next
     */
    public record Series(String label, boolean isStepped, List<Point> points) {}

    /**
     * A reading.
     *
     * @param at when
     * @param value the value; null: from here on nothing is known, so that no line leads on
     */
    public record Point(long at, @Nullable BigDecimal value) {}

    /**
     * A warning, a reading that no number tells, or a medicine.
     *
     * @param at when
     * @param weight {@code high}, {@code moderate} or {@code low} for a warning; {@code medicine}
     * @param text what it says
     */
    public record Mark(long at, String weight, String text) {}

    /** As JSON that may stand in a page. */
    String json() {
        return JSON.writeValueAsString(this).replace("<", "\\u003c");
    }
}
