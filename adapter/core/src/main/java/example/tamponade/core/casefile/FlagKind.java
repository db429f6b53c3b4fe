package example.tamponade.core.casefile;

import example.tamponade.core.event.Coded;

/** The warnings that a case can carry. */
public enum FlagKind implements Coded {
    /** The shock index is in a raised band of the protocol. */
    SHOCK_INDEX_RAISED,
    /** Cumulative blood loss has reached a threshold of the protocol. */
    BLOOD_LOSS_THRESHOLD,
    /** Blood loss with an abnormal sign calls for action. */
    HAEMORRHAGE_CRITERION,
    /** A sign meets a published criterion of early warning. */
    EARLY_WARNING,
    /** Bleeding was not controlled within the deadline after insertion. */
    CONTROL_DEADLINE_MISSED,
    /** Bleeding came again while the balloon was holding. */
    BLEEDING_RECURRED,
    /** Bleeding came while the balloon was let down or empty. */
    BLEEDING_DURING_EASING,
    /** Bleeding came after the balloon was out. */
    BLEEDING_AFTER_REMOVAL,
    /** The protocol's conditions for letting the balloon down are met. */
    EASING_MAY_BEGIN,
    /** Letting the balloon down began before the protocol's conditions were met. */
    EASING_TOO_EARLY,
    /** More was let out within the watching time than one step allows. */
    EASING_STEP_TOO_LARGE,
    /** The balloon came out before the waiting time was over. */
    REMOVAL_TOO_EARLY,
    /** The balloon came out while the retention chamber still held fluid. */
    RETENTION_NOT_EMPTIED,
    /** The longest time in place is near. */
    DWELL_LIMIT_NEAR,
    /** The longest time in place is over. */
    DWELL_LIMIT_PASSED,
    /** The balloon is not where it should be. */
    BALLOON_DISPLACED,
    /** The fundus is rising. */
    FUNDUS_RISING,
    /** Too little urine for too long. */
    OLIGURIA,
    /** The window for the antifibrinolytic will soon be over and none was given. */
    ANTIFIBRINOLYTIC_WINDOW_CLOSING,
    /** The window for the antifibrinolytic is over and none was given in it. */
    ANTIFIBRINOLYTIC_WINDOW_CLOSED,
    /** A check that was due was not done. */
    CHECK_MISSED;

    /**
     * Whether it warns of how the mother is, which no closing of a record changes. The others tell what is due, allowed or
     * was done, which ends with the case.
     */
    public boolean tellsOfTheMother() {
        return switch (this) {
            case SHOCK_INDEX_RAISED,
                    BLOOD_LOSS_THRESHOLD,
                    HAEMORRHAGE_CRITERION,
                    EARLY_WARNING,
                    BLEEDING_RECURRED,
                    BLEEDING_DURING_EASING,
                    BLEEDING_AFTER_REMOVAL,
                    DWELL_LIMIT_PASSED,
                    BALLOON_DISPLACED,
                    FUNDUS_RISING,
                    OLIGURIA -> true;
            case CONTROL_DEADLINE_MISSED,
                    EASING_MAY_BEGIN,
                    EASING_TOO_EARLY,
                    EASING_STEP_TOO_LARGE,
                    REMOVAL_TOO_EARLY,
                    RETENTION_NOT_EMPTIED,
                    DWELL_LIMIT_NEAR,
                    ANTIFIBRINOLYTIC_WINDOW_CLOSING,
                    ANTIFIBRINOLYTIC_WINDOW_CLOSED,
                    CHECK_MISSED -> false;
        };
    }
}
