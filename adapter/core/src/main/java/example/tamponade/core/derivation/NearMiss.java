package example.tamponade.core.derivation;

import java.util.Collection;
import java.util.List;

/**
 * Which criteria of a maternal near miss are met. A criterion is met when all its rules fire, so that one whose inputs were
 * not recorded is not met: nothing is inferred. The figures are for review of a case, not for its care.
 *
 * <p>Source: WHO near-miss approach, 2011, ISBN 978-92-4-150222-1; Oladapo OT et al., Reprod Health 2009;6:8, table 2 and
 * its notes.
 */
public final class NearMiss {

    private NearMiss() {}

    /**
     * One criterion, from the care protocol.
     *
     * @param code its name, for example {@code shock}; two criteria may share one, of which either is enough
     * @param rules what must all fire, at least one
     */
    public record Criterion(String code, List<SignRule> rules) {

        public Criterion {
            rules = List.copyOf(rules);
            if (rules.isEmpty()) {
                throw new IllegalArgumentException("the criterion " + code + " has no rule");
            }
        }
    }

    /**
     * A criterion that is met, and the readings that met it.
     *
     * @param criterion the criterion
     * @param fired its rules, each with its reading
     */
    public record Met(Criterion criterion, List<FiredSign> fired) {

        public Met {
            fired = List.copyOf(fired);
        }
    }

    /**
     * The criteria that are met, in their order.
     *
     * @param readings what was measured and seen, with the times that the rules ask for
     * @param criteria the criteria, from the care protocol
     */
    public static List<Met> met(Readings readings, Collection<Criterion> criteria) {
        return criteria.stream()
                .map(it -> new Met(it, EarlyWarning.fired(readings, it.rules())))
                .filter(it -> it.fired().size() == it.criterion().rules().size())
                .toList();
    }
}
