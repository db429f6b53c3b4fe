package example.tamponade.app.export;

/** More exports wait than are kept. */
public final class TooManyExportsException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    TooManyExportsException(int most) {
        super(most + " exports are there; delete one at the address that it is told at, or wait until one expires");
    }
}
