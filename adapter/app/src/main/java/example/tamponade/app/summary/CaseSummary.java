package example.tamponade.app.summary;

import java.util.List;

/**
 * What stands on the page of one case; every line is ready to be read.
 *
 * @param title the case and the mother
 * @param asOf up to when it was recorded, and with which care protocol
 * @param refused that something of the input was refused and is not on the page; empty when nothing was
 * @param readings the last of each reading, how old it is, and what comes next
 * @param times when what happened
 * @param medicines what was given, and when
 * @param totals the latest of each derived value, with unit and time; what is missing is shown as missing
 * @param trend blood loss, shock index and balloon volume hour by hour
 * @param standing warnings that stand, the gravest first
 * @param ended warnings that ended, in order
 * @param doubts doubts about the records
 * @param caution the caution
 */
public record CaseSummary(
        String title,
        String asOf,
        String refused,
        List<Line> readings,
        List<Line> times,
        List<Line> medicines,
        List<Line> totals,
        List<Hour> trend,
        List<Warning> standing,
        List<Warning> ended,
        List<String> doubts,
        String caution) {

    /**
     * A label with what belongs to it.
     *
     * @param label what
     * @param value its value, with unit
     * @param time when; empty when the value is the time
     */
    public record Line(String label, String value, String time) {}

    /**
     * The state at the end of an hour of the case.
     *
     * @param time when
     * @param lossMl blood lost so far, mL
     * @param shockIndex the latest shock index
     * @param balloonMl fluid in the tamponade chamber, mL
     */
    public record Hour(String time, String lossMl, String shockIndex, String balloonMl) {}

    /**
     * A warning.
     *
     * @param severity how much it weighs
     * @param text what it says
     * @param span from when to when
     * @param rule by which rule
     */
    public record Warning(String severity, String text, String span, String rule) {}
}
