package example.tamponade.core.casefile;

import example.tamponade.core.derivation.FirstLineBundle;
import example.tamponade.core.derivation.TamponadeCondition;
import example.tamponade.core.event.SuspectedCause;
import java.math.BigDecimal;
import java.time.OffsetDateTime;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.pcollections.HashTreePMap;
import org.pcollections.HashTreePSet;
import org.pcollections.PMap;
import org.pcollections.PSet;

/**
 * How far a case has come.
 *
 * @param marks the milestones reached
 * @param firstLine the measures of the first response that were taken
 * @param conditions the conditions for a tamponade that are on record
 * @param excluded the causes that were looked for and not found
 * @param body what of the mother's body the derivations need
 * @param severity how severe the haemorrhage has become; absent below the first threshold
 * @param closedAt when the case was closed; absent while it is open
 * @param unwatchedSince when the case was closed, or the mother handed over or dead, with nobody seen to look after her
 *     since; absent while she is watched
 */
record Progress(
        PMap<Milestone, Mark> marks,
        PSet<FirstLineBundle> firstLine,
        PSet<TamponadeCondition> conditions,
        PSet<SuspectedCause> excluded,
        Body body,
        @Nullable HaemorrhageSeverity severity,
        @Nullable OffsetDateTime closedAt,
        @Nullable OffsetDateTime unwatchedSince) {

    static final Progress NONE = new Progress(
            HashTreePMap.empty(),
            HashTreePSet.empty(),
            HashTreePSet.empty(),
            HashTreePSet.empty(),
            new Body(null, null, null),
            null,
            null,
            null);

    /**
     * When a milestone was reached.
     *
     * @param event by which event
     * @param at when
     */
    record Mark(UUID event, OffsetDateTime at) {}

    /**
     * What of the mother's body the derivations need.
     *
     * @param weightKg her weight, kg; absent when not known
     * @param bloodVolumeMl her estimated blood volume, mL; absent when not known
     * @param bloodVolumeFact the fact that holds it; absent when there is none
     */
    record Body(
            @Nullable BigDecimal weightKg,
            @Nullable BigDecimal bloodVolumeMl,
            @Nullable FactKey bloodVolumeFact) {}

    @Nullable
    Mark mark(Milestone milestone) {
        return marks.get(milestone);
    }

    Progress reached(Milestone milestone, Mark mark) {
        return new Progress(
                marks.plus(milestone, mark), firstLine, conditions, excluded, body, severity, closedAt, unwatchedSince);
    }

    Progress taken(FirstLineBundle measure) {
        return new Progress(
                marks, firstLine.plus(measure), conditions, excluded, body, severity, closedAt, unwatchedSince);
    }

    Progress recorded(TamponadeCondition condition) {
        return new Progress(
                marks, firstLine, conditions.plus(condition), excluded, body, severity, closedAt, unwatchedSince);
    }

    /** A cause was looked for and not found; tissue and trauma together are one of the conditions. */
    Progress excluded(SuspectedCause cause) {
        PSet<SuspectedCause> all = excluded.plus(cause);
        boolean both = all.contains(SuspectedCause.TISSUE) && all.contains(SuspectedCause.TRAUMA);
        return new Progress(
                marks,
                firstLine,
                both ? conditions.plus(TamponadeCondition.TISSUE_AND_TRAUMA_EXCLUDED) : conditions,
                all,
                body,
                severity,
                closedAt,
                unwatchedSince);
    }

    Progress with(Body known) {
        return new Progress(marks, firstLine, conditions, excluded, known, severity, closedAt, unwatchedSince);
    }

    Progress with(HaemorrhageSeverity reached) {
        return new Progress(marks, firstLine, conditions, excluded, body, reached, closedAt, unwatchedSince);
    }

    Progress closed(OffsetDateTime at) {
        return new Progress(marks, firstLine, conditions, excluded, body, severity, at, unwatchedSince);
    }

    Progress unwatched(@Nullable OffsetDateTime since) {
        return new Progress(marks, firstLine, conditions, excluded, body, severity, closedAt, since);
    }
}
