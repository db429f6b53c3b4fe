package example.tamponade.core.casefile;

import example.tamponade.core.event.Chamber;
import example.tamponade.core.protocol.Phase;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.OffsetDateTime;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * One insertion of a device and what has become of it.
 *
 * @param insertion the event of the insertion
 * @param insertedAt when it was placed
 * @param capacityMl the most the tamponade chamber may hold, mL; absent when not known
 * @param tamponadeMl fluid in the chamber inside the uterus, mL; never below 0
 * @param retentionMl fluid in the chamber in the vagina, mL; never below 0
 * @param tamponadeFact the fact that holds {@code tamponadeMl}; absent before the first filling
 * @param retentionFact the fact that holds {@code retentionMl}; absent before the first filling
 * @param course its phases and what goes with them
 * @param removal the event of the removal; absent while in place
 * @param removedAt when it came out; absent while in place
 */
public record Tamponade(
        UUID insertion,
        OffsetDateTime insertedAt,
        @Nullable BigDecimal capacityMl,
        BigDecimal tamponadeMl,
        BigDecimal retentionMl,
        @Nullable FactKey tamponadeFact,
        @Nullable FactKey retentionFact,
        Course course,
        @Nullable UUID removal,
        @Nullable OffsetDateTime removedAt) {

    static Tamponade inserted(UUID insertion, OffsetDateTime at, @Nullable BigDecimal capacityMl) {
        return new Tamponade(
                insertion, at, capacityMl, BigDecimal.ZERO, BigDecimal.ZERO, null, null, Course.BEGIN, null, null);
    }

    /** Whether the device is in place. */
    public boolean inPlace() {
        return removal == null;
    }

    /** Fluid in a chamber, mL. */
    public BigDecimal volumeMl(Chamber chamber) {
        return chamber == Chamber.TAMPONADE ? tamponadeMl : retentionMl;
    }

    @Nullable
    FactKey volumeFact(Chamber chamber) {
        return chamber == Chamber.TAMPONADE ? tamponadeFact : retentionFact;
    }

    Tamponade holding(Chamber chamber, BigDecimal volumeMl, FactKey fact) {
        boolean main = chamber == Chamber.TAMPONADE;
        return new Tamponade(
                insertion,
                insertedAt,
                capacityMl,
                main ? volumeMl : tamponadeMl,
                main ? retentionMl : volumeMl,
                main ? fact : tamponadeFact,
                main ? retentionFact : fact,
                course,
                removal,
                removedAt);
    }

    Tamponade removed(UUID event, OffsetDateTime at) {
        return new Tamponade(
                insertion,
                insertedAt,
                capacityMl,
                tamponadeMl,
                retentionMl,
                tamponadeFact,
                retentionFact,
                course,
                event,
                at);
    }

    Tamponade with(Course now) {
        return new Tamponade(
                insertion,
                insertedAt,
                capacityMl,
                tamponadeMl,
                retentionMl,
                tamponadeFact,
                retentionFact,
                now,
                removal,
                removedAt);
    }

    /** Whether a chamber holds nothing that could be measured: less than half a millilitre. */
    public boolean empty(Chamber chamber) {
        return volumeMl(chamber).setScale(0, RoundingMode.HALF_UP).signum() == 0;
    }

    /** The phase it is in. */
    public Phase phase() {
        return course.phase();
    }
}
