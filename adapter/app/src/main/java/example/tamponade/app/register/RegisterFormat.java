package example.tamponade.app.register;

import example.tamponade.app.intake.EventAssembly;
import example.tamponade.app.intake.EventFormat;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.Pieces;
import java.io.InputStream;

/**
 * A register as CSV by RFC 4180, one event a row under a header of the vocabulary's property names; also as spreadsheets
 * write it, with semicolons or tabs, a byte order mark and decimal commas. The original of a piece is the header and the
 * row, so that it is a register by itself.
 */
public final class RegisterFormat implements EventFormat {

    private final RowReader reader;

    /**
     * Makes the format.
     *
     * @param assembly makes the events
     * @param facilities tells the zones and date orders of those who write registers
     */
    public RegisterFormat(EventAssembly assembly, Facilities facilities) {
        this.reader = new RowReader(assembly, facilities);
    }

    @Override
    public Pieces open(InputStream in) {
        return new RegisterPieces(new RowScanner(in), reader);
    }
}
