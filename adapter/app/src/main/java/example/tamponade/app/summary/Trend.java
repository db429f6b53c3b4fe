package example.tamponade.app.summary;

import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.protocol.Phase;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;

/**
 * What was known of a case at a time. A value that is older than two intervals of the schedule is stale and not repeated as
 * if it held; a balloon that is out holds nothing.
 */
final class Trend {

    static final String NOTHING = "–";

    private final CaseFile file;
    private final OffsetDateTime now;
    private final PageTimes times;
    private final List<DerivedValue> values;

    Trend(CaseFile file, OffsetDateTime now, PageTimes times) {
        this.file = file;
        this.now = now;
        this.times = times;
        this.values = file.facts().stream()
                .filter(DerivedValue.class::isInstance)
                .map(DerivedValue.class::cast)
                .toList();
    }

    String bloodLoss(OffsetDateTime until) {
        return latest(FactKind.CUMULATIVE_BLOOD_LOSS, until)
                .map(it -> FactWords.number(it.value()))
                .orElse(NOTHING);
    }

    String shockIndex(OffsetDateTime until) {
        return latest(FactKind.SHOCK_INDEX, until)
                .map(it -> stale(it.at(), until) ? staleWords(it) : FactWords.number(it.value()))
                .orElse(NOTHING);
    }

    private String staleWords(DerivedValue value) {
        return "stale (" + FactWords.number(value.value()) + " at " + times.clock(value.at()) + ")";
    }

    String balloon(OffsetDateTime until) {
        if (isOut(until)) {
            return "removed";
        }
        return latest(FactKind.TAMPONADE_CHAMBER_VOLUME, until)
                .filter(it -> inserted(until).filter(it.at()::isBefore).isEmpty())
                .map(it -> FactWords.number(it.value()))
                .orElse(NOTHING);
    }

    /** Whether the latest device was in place once and is not any more. */
    boolean isOut(OffsetDateTime until) {
        Optional<DerivedValue> phase = latest(FactKind.TAMPONADE_PHASE, until);
        return phase.filter(it -> it.value() instanceof FactValue.Answer answer && answer.answer() == Phase.REMOVED)
                .filter(it -> inserted(until).filter(it.at()::isBefore).isEmpty())
                .isPresent();
    }

    OffsetDateTime now() {
        return now;
    }

    /** How old what was read or worked out at that time is, and whether it is stale. */
    String age(OffsetDateTime at, boolean ages) {
        Duration age = Duration.between(at, now);
        String words =
                age.toHours() > 0 ? age.toHours() + " h " + age.toMinutesPart() + " min" : age.toMinutes() + " min";
        return words + " ago" + (ages && stale(at, now) ? ", stale" : "");
    }

    private boolean stale(OffsetDateTime at, OffsetDateTime now) {
        return Duration.between(at, now).compareTo(interval(now).multipliedBy(2)) > 0;
    }

    private Duration interval(OffsetDateTime now) {
        return latest(FactKind.TAMPONADE_PHASE, now)
                .map(it -> file.protocol()
                        .schedule()
                        .every((Phase) ((FactValue.Answer) it.value()).answer(), Duration.between(it.at(), now)))
                .orElseGet(() -> file.protocol().schedule().every(Phase.NOT_INSERTED, Duration.ZERO));
    }

    private Optional<OffsetDateTime> inserted(OffsetDateTime until) {
        return file.entries().stream()
                .filter(it -> it.data() instanceof TamponadeInserted)
                .map(it -> it.event().occurredAt())
                .filter(it -> !it.isAfter(until))
                .reduce((earlier, later) -> later);
    }

    private Optional<DerivedValue> latest(FactKind kind, OffsetDateTime until) {
        return values.stream()
                .filter(it -> it.kind() == kind && !it.at().isAfter(until))
                .reduce((earlier, later) -> later);
    }
}
