package example.tamponade.app.register;

import example.tamponade.app.intake.EventIds;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.intake.StatedEvent;
import java.util.regex.Pattern;

/**
 * Ids of events for those who number the rows of each case: the id follows from facility, case and number, so that sending
 * the register again is the same events again. Of a case of another facility that facility is part of the name.
 */
final class EntryNumbers {

    private static final int LONGEST = 20;

    // Shorter than any event id, so that a misspelt event id is never taken for a number.
    private static final Pattern NUMBER = Pattern.compile("[\\p{L}\\p{N}][\\p{L}\\p{N}./-]{0," + (LONGEST - 1) + "}");

    private EntryNumbers() {}

    /** States the event's id from its number. */
    static void state(RowCells cells, StatedEvent event) {
        String number = cells.text(Column.ENTRY);
        if (number.isEmpty()) {
            Reason missing = new Reason(
                    ReasonCode.MISSING_PROPERTY,
                    "",
                    "the row has neither an entry number nor an event id",
                    "number the rows of each case in a column 'entry': without it a reading would count twice when the"
                            + " register is sent again");
            event.withUnreadable("/eventId", "", missing, cells.place());
        } else {
            read(number, cells).state(event, "/eventId", cells.place(Column.ENTRY));
        }
    }

    /** The id of the event that a row corrects or retracts, by its number in the same case or by its event id. */
    static CellValue reference(String text, RowCells cells) {
        return text.length() > LONGEST ? CellValue.of(text) : read(text, cells);
    }

    private static CellValue read(String number, RowCells cells) {
        if (!NUMBER.matcher(number).matches()) {
            return CellValue.refused(
                    number,
                    ReasonCode.INVALID_VALUE,
                    "is not an entry number",
                    "use letters, digits, full stop, slash and hyphen, at most " + LONGEST + ", for example 12");
        }
        String facility = cells.text("/facilityId");
        String caseFacility = cells.text("/caseFacility");
        String caseId = caseFacility.isEmpty() || caseFacility.equals(facility)
                ? cells.text("/caseId")
                : caseFacility + "/" + cells.text("/caseId");
        return CellValue.of(
                EventIds.of(InputFormat.REGISTER, facility, caseId, number).toString());
    }
}
