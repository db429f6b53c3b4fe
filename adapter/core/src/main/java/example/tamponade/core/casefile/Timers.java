package example.tamponade.core.casefile;

import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.pcollections.PMap;

/**
 * What standing flags and running timers have become when time has passed.
 *
 * @param openFlags flags that stand, by slot
 * @param timers timers that still run, by slot
 * @param facts flags that began or ended on the way
 */
record Timers(PMap<String, Flag> openFlags, PMap<String, Timer> timers, List<CaseFact> facts) {

    private static final Comparator<Map.Entry<String, Timer>> BY_DUE_TIME = Comparator.comparing(
                    (Map.Entry<String, Timer> it) -> it.getValue().due().toInstant())
            .thenComparing(Map.Entry::getKey);

    /** Lets time pass; what is done exactly when it is due is in time. */
    static Timers passed(PMap<String, Flag> openFlags, PMap<String, Timer> timers, OffsetDateTime time) {
        Timers now = new Timers(openFlags, timers, new ArrayList<>());
        List<Map.Entry<String, Timer>> due = timers.entrySet().stream()
                .filter(it -> it.getValue().due().isBefore(time))
                .sorted(BY_DUE_TIME)
                .toList();
        for (Map.Entry<String, Timer> timer : due) {
            now = now.fire(timer.getKey(), timer.getValue());
        }
        return now;
    }

    private Timers fire(String slot, Timer timer) {
        PMap<String, Flag> flags = openFlags;
        Flag replaced = timer.replaces() == null ? null : flags.get(timer.replaces());
        if (replaced != null) {
            facts.add(replaced.ended(new Flag.Ending(timer.due(), FlagEndReason.SUPERSEDED, null)));
            flags = flags.minus(timer.replaces());
        }
        if (!flags.containsKey(slot)) {
            facts.add(timer.flag());
            flags = flags.plus(slot, timer.flag());
        }
        return new Timers(flags, timers.minus(slot), facts);
    }
}
