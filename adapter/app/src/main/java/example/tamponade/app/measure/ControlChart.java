package example.tamponade.app.measure;

import java.util.ArrayList;
import java.util.List;

/**
 * Shares over time or over facilities beside what chance alone would bring: a control chart of proportions
 * (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.3.2), its signals by two of the Western Electric rules (same,
 * 6.3.2), and the limits of a funnel plot (Spiegelhalter 2005, Statistics in Medicine 24:1185).
 *
 * @param centre the share of all counts together, 0 to 1; NaN where nothing was counted
 * @param points one for each count, in order
 */
public record ControlChart(double centre, List<Point> points) {

    /** Three standard deviations: the usual limits of a control chart. */
    public static final double CONTROL = 3;

    /** The inner limits of a funnel, within which 95 of 100 lie by chance. */
    public static final double FUNNEL_95 = 1.96;

    /** The outer limits of a funnel, within which 998 of 1000 lie by chance. */
    public static final double FUNNEL_998 = 3.09;

    // As many in a row on one side of the centre are a signal (Western Electric).
    private static final int RUN = 8;

    /**
     * What is counted.
     *
     * @param label the month, or the facility
     * @param asked how many cases were asked
     * @param met how many of them met it
     */
    public record Count(String label, int asked, int met) {}

    /**
     * A count with its limits.
     *
     * @param share the share that met it, 0 to 1; NaN where none was asked
     * @param lower the lower limit, 0 to 1
     * @param upper the upper limit, 0 to 1
     * @param signal what it shows
     */
    public record Point(Count count, double share, double lower, double upper, Signal signal) {}

    /** What a point shows. */
    public enum Signal {
        /** Nothing that chance alone would not bring. */
        NONE,
        /** It lies beyond a limit. */
        BEYOND,
        /** It is the eighth in a row, or a later one, on the same side of the centre. */
        RUN
    }

    /**
     * The chart of these counts.
     *
     * @param deviations how many standard deviations the limits are from the centre
     */
    public static ControlChart of(List<Count> counts, double deviations) {
        int asked = counts.stream().mapToInt(Count::asked).sum();
        int met = counts.stream().mapToInt(Count::met).sum();
        double centre = asked == 0 ? Double.NaN : (double) met / asked;
        List<Point> points = new ArrayList<>();
        int side = 0;
        int inRow = 0;
        for (Count count : counts) {
            if (count.asked() == 0) {
                points.add(new Point(count, Double.NaN, Double.NaN, Double.NaN, Signal.NONE));
                continue;
            }
            double share = (double) count.met() / count.asked();
            double width = deviations * Math.sqrt(centre * (1 - centre) / count.asked());
            double lower = Math.max(0, centre - width);
            double upper = Math.min(1, centre + width);
            int now = Double.compare(share, centre);
            inRow = now != 0 && now == side ? inRow + 1 : 1;
            side = now;
            boolean isBeyond = share < lower || share > upper;
            boolean isInRun = now != 0 && inRow >= RUN;
            points.add(new Point(
                    count, share, lower, upper, isBeyond ? Signal.BEYOND : isInRun ? Signal.RUN : Signal.NONE));
        }
        return new ControlChart(centre, points);
    }
}
