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
    /** Bleeding came again under the balloon while bleeding was controlled. */
    BLEEDING_RECURRED,
    /** Bleeding came during deflation or while the balloon was empty. */
    BLEEDING_DURING_DEFLATION,
    /** Bleeding came after the balloon was out. */
    BLEEDING_AFTER_REMOVAL,
    /** The protocol's conditions for deflation are met. */
    DEFLATION_MAY_BEGIN,
    /** She has been stable long enough as far as is known, but was not looked at often enough to say so. */
    STABILITY_NOT_SHOWN,
    /** Deflation began before the protocol's conditions were met. */
    DEFLATION_TOO_EARLY,
    /** More was let out within the watching time than one step allows. */
    DEFLATION_STEP_TOO_LARGE,
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
    /** The first antifibrinolytic was given after its window. */
    ANTIFIBRINOLYTIC_LATE,
    /** Bleeding goes on, or has begun again, and a second antifibrinolytic may be given. */
    ANTIFIBRINOLYTIC_SECOND_DUE,
    /** The second antifibrinolytic was given too soon after the first. */
    ANTIFIBRINOLYTIC_SECOND_TOO_EARLY,
    /** The placenta was incomplete or retained. */
    PLACENTA_NOT_COMPLETE,
    /** Blood comes from elsewhere than the uterine cavity. */
    BLEEDING_FROM_ELSEWHERE,
    /** Something of the preparation of the device was not done. */
    PREPARATION_INCOMPLETE,
    /** The device was inserted after its last day of use. */
    DEVICE_PAST_DATE,
    /** The position of the device was not confirmed. */
    POSITION_NOT_CONFIRMED,
    /** Too much blood was lost soon after the insertion. */
    LOSS_AFTER_INSERTION,
    /** No measure of the first response was taken in time. */
    FIRST_RESPONSE_LATE,
    /** A laboratory result is beyond a limit of the protocol. */
    LABORATORY_ABNORMAL,
    /** A check that was due was not done. */
    CHECK_MISSED,
    /** The facility has no tamponade set that is complete, in date and within reach. */
    TAMPONADE_SET_NOT_READY,
    /** The bag of an infusion that is meant to go on is empty at the rate on record. */
    INFUSION_RUN_OUT,
    /** The nearest operating theatre is farther than the plan of the facility allows. */
    THEATRE_TOO_FAR;

    /**
     * Whether the reading behind it is repeated to confirm it. Source: Mhyre JM et al., Obstet Gynecol 2014;124:782, doi
     * 10.1097/AOG.0000000000000480.
     */
    public boolean isConfirmedByRepeat() {
        return this == EARLY_WARNING;
    }

    /** Whether it warns of a facility; it belongs to no mother then. */
    public boolean isOfFacility() {
        return this == TAMPONADE_SET_NOT_READY || this == THEATRE_TOO_FAR;
    }

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
                    CONTROL_DEADLINE_MISSED,
                    BLEEDING_RECURRED,
                    BLEEDING_DURING_DEFLATION,
                    BLEEDING_AFTER_REMOVAL,
                    DWELL_LIMIT_PASSED,
                    BALLOON_DISPLACED,
                    FUNDUS_RISING,
                    OLIGURIA,
                    PLACENTA_NOT_COMPLETE,
                    BLEEDING_FROM_ELSEWHERE,
                    LOSS_AFTER_INSERTION,
                    LABORATORY_ABNORMAL -> true;
            case DEFLATION_MAY_BEGIN,
                    STABILITY_NOT_SHOWN,
                    DEFLATION_TOO_EARLY,
                    DEFLATION_STEP_TOO_LARGE,
                    REMOVAL_TOO_EARLY,
                    RETENTION_NOT_EMPTIED,
                    DWELL_LIMIT_NEAR,
                    ANTIFIBRINOLYTIC_WINDOW_CLOSING,
                    ANTIFIBRINOLYTIC_WINDOW_CLOSED,
                    ANTIFIBRINOLYTIC_LATE,
                    ANTIFIBRINOLYTIC_SECOND_DUE,
                    ANTIFIBRINOLYTIC_SECOND_TOO_EARLY,
                    PREPARATION_INCOMPLETE,
                    DEVICE_PAST_DATE,
                    POSITION_NOT_CONFIRMED,
                    FIRST_RESPONSE_LATE,
                    CHECK_MISSED,
                    TAMPONADE_SET_NOT_READY,
                    INFUSION_RUN_OUT,
                    THEATRE_TOO_FAR -> false;
        };
    }
}
