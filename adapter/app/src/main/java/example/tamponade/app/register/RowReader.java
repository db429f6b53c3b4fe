package example.tamponade.app.register;

import example.tamponade.app.intake.EventAssembly;
import example.tamponade.app.intake.EventProperties;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.intake.StatedEvent;

/** Reads the cells of a row as an event. */
final class RowReader {

    private static final String EMPTY_LIST = "none";

    private final EventAssembly assembly;
    private final Facilities facilities;
    private final TimeCells times;

    RowReader(EventAssembly assembly, Facilities facilities) {
        this.assembly = assembly;
        this.facilities = facilities;
        this.times = new TimeCells(facilities);
    }

    /** The event of a row, or every reason against it. */
    Intake read(RowCells cells, Original original) {
        StatedEvent event = new StatedEvent(cells.place());
        if (cells.text("/eventId").isEmpty()) {
            EntryNumbers.state(cells, event);
        }
        if (cells.text("/source").isEmpty()) {
            event.with("/source", "register", cells.place());
        }
        stateTime(cells, Column.DATE, Column.TIME, "/occurredAt", event);
        stateTime(cells, Column.RECORDED_DATE, Column.RECORDED_TIME, "/recordedAt", event);
        cells.texts().forEach((column, text) -> {
            if (column.path() != null) {
                state(cells, column.path(), text, cells.place(column), event);
            }
        });
        return assembly.read(event, original);
    }

    private void stateTime(RowCells cells, Column date, Column time, String path, StatedEvent event) {
        String day = cells.text(date);
        String timeOfDay = cells.text(time);
        if (day.isEmpty() && timeOfDay.isEmpty()) {
            return;
        }
        if (day.isEmpty() || timeOfDay.isEmpty()) {
            Column there = day.isEmpty() ? time : date;
            Column missing = day.isEmpty() ? date : time;
            Reason refusal = new Reason(
                    ReasonCode.MISSING_PROPERTY,
                    "",
                    there.name() + " is given and " + missing.name() + " is not",
                    "fill in both");
            event.withUnreadable(path, day + timeOfDay, refusal, cells.place(missing));
        } else {
            times.read(day + " " + timeOfDay, cells.text("/facilityId"))
                    .state(event, path, cells.place() + ", columns " + date.name() + " and " + time.name());
        }
    }

    private void state(RowCells cells, String path, String text, String place, StatedEvent event) {
        String list = EventProperties.list(cells.text("/type"), path);
        if (list == null) {
            value(cells, path, text).state(event, path, place);
        } else if (text.equalsIgnoreCase(EMPTY_LIST)) {
            event.withEmptyList(list, place);
        } else {
            for (String element : text.split("\\|", -1)) {
                value(cells, path, element.strip()).state(event, path, place);
            }
        }
    }

    private CellValue value(RowCells cells, String path, String text) {
        Reason fault = SpreadsheetFaults.of(text);
        if (fault != null) {
            return CellValue.refused(text, fault);
        }
        if (path.equals("/corrects") || path.equals("/retracts")) {
            return EntryNumbers.reference(text, cells);
        }
        String facility = cells.text("/facilityId");
        return switch (EventProperties.kind(cells.text("/type"), path)) {
            case AMOUNT, NUMBER -> NumberCells.read(text, cells.decimalComma());
            case TIME -> times.read(text, facility);
            case DATE -> DateCells.read(text, facilities.dateOrder(facility));
            case YES_OR_NO, TEXT -> CellValue.of(text);
        };
    }
}
