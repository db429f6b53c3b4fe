package example.tamponade.app.quarantine;

import example.tamponade.app.intake.Piece;

/** What makes a piece the same when it comes again: its bytes, its format and which part of them it is. */
record PieceKey(String digest, String format, String part) {

    static PieceKey of(Piece piece) {
        return new PieceKey(piece.original().digest(), piece.format().code(), piece.part());
    }
}
