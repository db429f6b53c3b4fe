package example.tamponade.app.register;

import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.intake.StatedEvent;
import org.jspecify.annotations.Nullable;

/**
 * What a cell says.
 *
 * @param text the value, a number with a decimal point, a time with its offset
 * @param unit the unit behind the number; null when there is none
 * @param refusal why the cell cannot be read; null when it can
 */
record CellValue(
        String text, @Nullable String unit, @Nullable Reason refusal) {

    private static final int MAX_SHOWN = 60;

    static CellValue of(String text) {
        return new CellValue(text, null, null);
    }

    /** A cell that cannot be read; its text comes before the message. */
    static CellValue refused(String text, ReasonCode code, String message, String remedy) {
        String shown = text.length() > MAX_SHOWN ? text.substring(0, MAX_SHOWN) + "…" : text;
        return refused(text, new Reason(code, "", "'" + shown + "' " + message, remedy));
    }

    static CellValue refused(String text, Reason refusal) {
        return new CellValue(text, null, refusal);
    }

    /** Has the event state this. */
    void state(StatedEvent event, String path, String place) {
        if (refusal == null) {
            event.with(path, text, unit, place);
        } else {
            event.withUnreadable(path, text, refusal, place);
        }
    }
}
