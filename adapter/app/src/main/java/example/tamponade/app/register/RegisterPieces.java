package example.tamponade.app.register;

import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.intake.Reason;
import java.io.IOException;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The rows of a register, each with the header before it. */
final class RegisterPieces implements Pieces {

    private final RowScanner rows;
    private final RowReader reader;
    private @Nullable Header header;
    private boolean anyRow;
    private boolean atEnd;

    RegisterPieces(RowScanner rows, RowReader reader) {
        this.rows = rows;
        this.reader = reader;
    }

    @Override
    public @Nullable Piece next() throws IOException {
        if (atEnd) {
            return null;
        }
        Header head = header;
        if (head == null) {
            HeaderReader headers = new HeaderReader(rows);
            head = headers.read();
            if (head == null) {
                return whole(headers.reasons(), headers.original());
            }
            header = head;
        }
        return next(head);
    }

    @Override
    public void close() throws IOException {
        rows.close();
    }

    private @Nullable Piece next(Header head) throws IOException {
        for (Row row = rows.next(String.valueOf(head.separator()));
                row != null;
                row = rows.next(String.valueOf(head.separator()))) {
            Piece piece = piece(row, head);
            if (piece != null) {
                anyRow = true;
                return piece;
            }
        }
        atEnd = true;
        return anyRow ? null : whole(List.of(RowFaults.emptyRegister()), head.original());
    }

    private @Nullable Piece piece(Row row, Header head) throws IOException {
        Reason fault = RowFaults.of(row);
        String text = row.text();
        if (fault != null) {
            return refused(row, head, fault);
        }
        if (text == null) {
            return refused(row, head, RowFaults.notUtf8());
        }
        List<String> cells = Csv.cells(text, head.separator());
        if (cells == null) {
            return refused(row, head, RowFaults.torn());
        }
        if (cells.stream().allMatch(String::isEmpty)) {
            return null;
        }
        Reason misfit = RowFaults.ofCells(cells, head);
        if (row.severalLines() && (misfit != null || RowFaults.holdsRows(text, head))) {
            // Two quotes that are each not closed look like one cell; the rows between them must not be lost.
            return piece(rows.firstLine(), head);
        }
        if (misfit != null) {
            return refused(row, head, misfit);
        }
        Original original = original(row, head);
        return piece(row, original, reader.read(new RowCells(row.place(), head, cells), original));
    }

    private static Piece refused(Row row, Header head, Reason reason) throws IOException {
        return piece(row, original(row, head), new Intake.Refused(List.of(reason.at(row.place()))));
    }

    private static Original original(Row row, Header head) throws IOException {
        return head.with(row.original());
    }

    private static Piece piece(Row row, Original original, Intake intake) {
        return new Piece(InputFormat.REGISTER, row.place(), original, intake);
    }

    private Piece whole(List<Reason> reasons, Original before) throws IOException {
        atEnd = true;
        Original all = rows.rest(before);
        return new Piece(InputFormat.REGISTER, "the register", all, new Intake.Refused(reasons));
    }
}
