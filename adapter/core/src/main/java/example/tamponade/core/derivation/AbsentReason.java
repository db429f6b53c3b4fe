package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;

/** Why a derived value has no number. */
public enum AbsentReason implements Coded {
    /** A blood pressure was sought and could not be heard or felt. */
    PRESSURE_UNRECORDABLE,
    /** An input that the formula needs was not recorded. */
    INPUT_MISSING,
    /** The mother's weight was not recorded. */
    WEIGHT_MISSING,
    /** The diastolic pressure was not recorded. */
    DIASTOLIC_MISSING,
    /** What an interval begins with was not recorded. */
    BEGIN_MISSING,
    /** No fluid given was recorded; that none was given is not known. */
    INTAKE_MISSING,
    /** Urine was collected for too short a time. */
    COLLECTION_TOO_SHORT,
    /** Nothing was measured before, so that it is not known over which time. */
    FIRST_READING,
    /** The formula would divide by zero. */
    DIVISOR_ZERO,
    /** An amount was given in a unit that the formula cannot use. */
    UNIT_NOT_CONVERTIBLE
}
