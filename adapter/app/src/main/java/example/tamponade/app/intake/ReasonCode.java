package example.tamponade.app.intake;

import example.tamponade.core.event.Coded;

/** Why an event was refused; the codes are those of the refusal code system. */
public enum ReasonCode implements Coded {
    EMPTY_INPUT,
    WRONG_ENCODING,
    TOO_LONG,
    MALFORMED_JSON,
    MALFORMED_MESSAGE,
    NOT_AN_OBJECT,
    NOT_SUPPORTED,
    UNKNOWN_TYPE,
    UNKNOWN_PROPERTY,
    MISSING_PROPERTY,
    WRONG_TYPE,
    NOT_IN_LIST,
    WRONG_UNIT,
    TIME_WITHOUT_OFFSET,
    INVALID_VALUE,
    IMPOSSIBLE_VALUE,
    CONFLICT,
    NOT_PERMITTED,
    ADAPTER_FAULT
}
