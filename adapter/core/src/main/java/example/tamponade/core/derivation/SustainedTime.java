package example.tamponade.core.derivation;

import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;

/**
 * How long a sign has lasted = last observation - first observation of the unbroken run of abnormal ones that it ends, min,
 * shown without decimals; 0 when the last was normal, and after a single abnormal one. No time is added after the last
 * observation: what nobody looked at did not last.
 *
 * <p>Source: durations as in Shields LE et al., Am J Obstet Gynecol 2016 (longer than 20 min) and the WHO maternal near-miss
 * criteria (60 min).
 */
public final class SustainedTime {

    private SustainedTime() {}

    /**
     * One observation of a sign.
     *
     * @param at when
     * @param abnormal whether the sign was there; a pressure that could not be heard is a low one
     */
    public record Observed(Instant at, boolean abnormal) {}

    /**
     * The time of the last run.
     *
     * @param observations observations of one sign in any order
     */
    public static FactValue.Amount of(Collection<Observed> observations) {
        List<Observed> latestFirst = observations.stream()
                .sorted(Comparator.comparing(Observed::at).reversed())
                .toList();
        List<Observed> run = latestFirst.stream().takeWhile(Observed::abnormal).toList();
        return run.isEmpty()
                ? Interval.minutes(Duration.ZERO)
                : Interval.between(run.get(run.size() - 1).at(), run.get(0).at());
    }
}
