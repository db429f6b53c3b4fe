package example.tamponade.core.casefile;

import example.tamponade.core.event.Coded;

/** What can be doubtful about a record that was accepted. */
public enum IssueKind implements Coded {
    /** A value that is hardly seen. */
    IMPLAUSIBLE_VALUE,
    /** A sender that sends at once gave a time long past. */
    CLOCK_DOUBT,
    /** A running total fell although the collector was not emptied. */
    RUNNING_TOTAL_FELL,
    /** Two collectors were read in one minute with one volume: perhaps the same blood twice. */
    SAME_READING_TWICE,
    /** Urine was collected over a time that another collection covers. */
    URINE_COLLECTIONS_OVERLAP,
    /** More was let out of a chamber than it held. */
    DRAINED_MORE_THAN_HELD,
    /** The limits of the protocol cannot be compared with a result. */
    RESULT_NOT_JUDGED,
    /** A chamber holds more than its capacity. */
    OVER_CAPACITY,
    /** Something was done to a device while none was in place. */
    NO_DEVICE_IN_PLACE,
    /** Something happened after the case was closed. */
    AFTER_CLOSURE,
    /** No event opened the case. */
    CASE_NOT_OPENED,
    /** The adapter failed to put an event on record. */
    EVENT_SET_ASIDE
}
