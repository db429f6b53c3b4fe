package example.tamponade.app.message;

import ca.uhn.hl7v2.ErrorCode;
import example.tamponade.app.intake.ReasonCode;
import org.jspecify.annotations.Nullable;

/** Reasons of refusal in the codes of HL7 table 0357 (HL7 2.5.1, 2.15.5.3). */
final class ErrorCodes {

    private ErrorCodes() {}

    static ErrorCode of(ReasonCode code, @Nullable MessagePlace place) {
        return switch (code) {
            case EMPTY_INPUT, MALFORMED_JSON, MALFORMED_MESSAGE, NOT_AN_OBJECT -> ErrorCode.SEGMENT_SEQUENCE_ERROR;
            case MISSING_PROPERTY -> ErrorCode.REQUIRED_FIELD_MISSING;
            case WRONG_ENCODING, TOO_LONG, WRONG_TYPE, TIME_WITHOUT_OFFSET, INVALID_VALUE, IMPOSSIBLE_VALUE ->
                ErrorCode.DATA_TYPE_ERROR;
            case UNKNOWN_TYPE, UNKNOWN_PROPERTY, NOT_IN_LIST, WRONG_UNIT -> ErrorCode.TABLE_VALUE_NOT_FOUND;
            case NOT_PERMITTED -> ErrorCode.UNKNOWN_KEY_IDENTIFIER;
            case CONFLICT -> ErrorCode.DUPLICATE_KEY_IDENTIFIER;
            case ADAPTER_FAULT -> ErrorCode.APPLICATION_INTERNAL_ERROR;
            case NOT_SUPPORTED -> notSupported(place);
        };
    }

    private static ErrorCode notSupported(@Nullable MessagePlace place) {
        if (place == null || !place.segment().equals("MSH")) {
            return ErrorCode.TABLE_VALUE_NOT_FOUND;
        }
        return switch (place.field()) {
            case 9 -> place.component() == 2 ? ErrorCode.UNSUPPORTED_EVENT_CODE : ErrorCode.UNSUPPORTED_MESSAGE_TYPE;
            case 11 -> ErrorCode.UNSUPPORTED_PROCESSING_ID;
            case 12 -> ErrorCode.UNSUPPORTED_VERSION_ID;
            default -> ErrorCode.TABLE_VALUE_NOT_FOUND;
        };
    }
}
