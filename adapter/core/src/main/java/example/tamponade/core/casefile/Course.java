package example.tamponade.core.casefile;

import example.tamponade.core.protocol.Phase;
import java.math.BigDecimal;
import java.time.OffsetDateTime;
import org.jspecify.annotations.Nullable;
import org.pcollections.PVector;
import org.pcollections.TreePVector;

/**
 * The course of one tamponade.
 *
 * @param phase the phase it is in
 * @param stableSince since when the mother has been stable under control; absent while she is not
 * @param fundusAtInsertionCm lowest height of the fundus just before and just after insertion, cm; absent before it was felt
 * @param drains what was let out within the watching time, in order
 * @param step the deflation step under way or being watched; absent before the first
 * @param quietSinceStep whether a check since the step saw no active bleeding
 * @param stepWatched whether one whole step was watched without bleeding
 * @param emptySince when the chamber in the uterus became empty while deflation; absent before
 * @param controlled whether bleeding has been controlled since the insertion, be it for a while
 * @param fundusFelt whether the fundus was felt since the insertion
 */
record Course(
        Phase phase,
        @Nullable OffsetDateTime stableSince,
        @Nullable BigDecimal fundusAtInsertionCm,
        PVector<Drain> drains,
        @Nullable Step step,
        boolean quietSinceStep,
        boolean stepWatched,
        @Nullable OffsetDateTime emptySince,
        boolean controlled,
        boolean fundusFelt) {

    static final Course BEGIN =
            new Course(Phase.NOT_INSERTED, null, null, TreePVector.empty(), null, false, false, null, false, false);

    /**
     * What was let out at one time.
     *
     * @param at when
     * @param volumeMl how much, mL
     * @param fact the fact of its step
     */
    record Drain(OffsetDateTime at, BigDecimal volumeMl, FactKey fact) {}

    /**
     * A deflation step: drains close together.
     *
     * @param lastDrain its latest drain
     * @param volumeMl what it let out so far, mL
     * @param fact the fact that holds the volume
     */
    record Step(OffsetDateTime lastDrain, BigDecimal volumeMl, FactKey fact) {}

    /** The course in another phase; leaving deflation and waiting behind forgets the steps. */
    Course in(Phase next) {
        boolean deflation = next == Phase.DEFLATION || next == Phase.DEFLATED || next == Phase.REMOVED;
        return new Course(
                next,
                next == Phase.BEING_FILLED ? null : stableSince,
                fundusAtInsertionCm,
                drains,
                deflation ? step : null,
                deflation && quietSinceStep,
                deflation && stepWatched,
                deflation ? emptySince : null,
                controlled,
                fundusFelt);
    }

    Course stable(@Nullable OffsetDateTime since) {
        return new Course(
                phase,
                since,
                fundusAtInsertionCm,
                drains,
                step,
                quietSinceStep,
                stepWatched,
                emptySince,
                controlled,
                fundusFelt);
    }

    Course fundus(@Nullable BigDecimal baseCm, boolean felt) {
        return new Course(
                phase, stableSince, baseCm, drains, step, quietSinceStep, stepWatched, emptySince, controlled, felt);
    }

    Course underControl() {
        return new Course(
                phase,
                stableSince,
                fundusAtInsertionCm,
                drains,
                step,
                quietSinceStep,
                stepWatched,
                emptySince,
                true,
                fundusFelt);
    }

    Course stepped(PVector<Drain> recent, Step now, boolean newStep, boolean watched) {
        return new Course(
                phase,
                stableSince,
                fundusAtInsertionCm,
                recent,
                now,
                !newStep && quietSinceStep,
                watched,
                emptySince,
                controlled,
                fundusFelt);
    }

    Course quiet() {
        return new Course(
                phase,
                stableSince,
                fundusAtInsertionCm,
                drains,
                step,
                true,
                stepWatched,
                emptySince,
                controlled,
                fundusFelt);
    }

    Course empty(OffsetDateTime since) {
        return new Course(
                phase,
                stableSince,
                fundusAtInsertionCm,
                drains,
                step,
                quietSinceStep,
                stepWatched,
                since,
                controlled,
                fundusFelt);
    }
}
