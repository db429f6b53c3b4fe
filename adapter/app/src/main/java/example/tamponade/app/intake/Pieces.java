package example.tamponade.app.intake;

import java.io.Closeable;
import java.io.IOException;
import org.jspecify.annotations.Nullable;

/** The pieces of an input, one after the other, in constant memory. */
public interface Pieces extends Closeable {

    /** The next piece; null at the end. An input that cannot be read on at all is one refused piece. */
    @Nullable
    Piece next() throws IOException;
}
