package example.tamponade.app.message;

import example.tamponade.app.intake.ReasonCode;
import java.util.EnumSet;
import java.util.Set;

/** What becomes of a group by the statuses in it: a new event, a correction or a withdrawal. */
enum GroupStatus {
    NEW,
    CORRECTION,
    WITHDRAWAL;

    private static final String REMEDY = "send it when it is final (F), corrected (C) or withdrawn (D, W)";

    /** Tells it, and refuses what is not final. */
    static GroupStatus of(ObservationGroup group, EventStatement event) {
        Set<ResultStatus> found = EnumSet.noneOf(ResultStatus.class);
        String ordered = Fields.text(group.obr().getResultStatus());
        found.add(ResultStatus.ofOrder(ordered));
        if (found.contains(ResultStatus.NOT_FINAL)) {
            refuse(event, "OBR-25", ordered, group.place().field(25));
        }
        for (ObservationGroup.Observation it : group.observations()) {
            String code = Fields.text(it.obx().getObservationResultStatus());
            ResultStatus status = ResultStatus.ofObservation(code);
            found.add(status);
            if (status == ResultStatus.NOT_FINAL) {
                refuse(event, "OBX-11", code, it.place().field(11));
            }
        }
        boolean allWithdrawn = !group.observations().isEmpty()
                && group.observations().stream().allMatch(it -> of(it) == ResultStatus.WITHDRAWN);
        if (allWithdrawn) {
            return WITHDRAWAL;
        }
        return found.contains(ResultStatus.CORRECTED) || found.contains(ResultStatus.WITHDRAWN) ? CORRECTION : NEW;
    }

    private static ResultStatus of(ObservationGroup.Observation it) {
        return ResultStatus.ofObservation(Fields.text(it.obx().getObservationResultStatus()));
    }

    private static void refuse(EventStatement event, String field, String code, MessagePlace place) {
        event.refuse(
                ReasonCode.NOT_SUPPORTED,
                field + " '" + Texts.shortened(code) + "' says that the result is not final",
                REMEDY,
                place);
    }
}
