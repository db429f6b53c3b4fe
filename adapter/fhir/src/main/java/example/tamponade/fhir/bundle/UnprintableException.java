package example.tamponade.fhir.bundle;

/** A document with letters that a PDF of ours cannot show rightly; the message names them and the remedy. */
public final class UnprintableException extends Exception {

    private static final long serialVersionUID = 1L;

    UnprintableException(int letter) {
        super("the letter " + Character.toString(letter) + " (U+%04X)".formatted(letter)
                + " is not in the fonts of the PDF, or is written from right to left; print the page instead, from a"
                + " browser, which has it");
    }
}
