package example.tamponade.core.derivation;

import java.util.Collection;
import java.util.List;

/**
 * Which rules of a set fire on a woman's readings, each with the reading that fired it, in the order of the set.
 *
 * <p>The sets are published and come from the care protocol: the Maternal Early Warning Criteria of Mhyre JM et al., Obstet
 * Gynecol 2014;124:782, doi 10.1097/AOG.0000000000000480, of which any one calls for a bedside evaluation; the two tiers
 * of Shields LE et al., Am J Obstet Gynecol 2016; or the abnormal signs of a haemorrhage criterion. What was not measured
 * fires nothing. A pressure that could not be heard has no number and so passes every limit: a set should hold a rule of
 * its own for it.
 */
public final class EarlyWarning {

    private EarlyWarning() {}

    /**
     * The rules that fire.
     *
     * @param readings what was measured and seen
     * @param rules the set, from the care protocol
     */
    public static List<FiredSign> fired(Readings readings, Collection<SignRule> rules) {
        return rules.stream()
                .filter(it -> it.firedBy(readings))
                .map(it -> new FiredSign(it, readings.values().get(it.sign())))
                .toList();
    }
}
