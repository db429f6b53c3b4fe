package example.tamponade.app.message;

import static ca.uhn.hl7v2.llp.MllpConstants.END_BYTE1;
import static ca.uhn.hl7v2.llp.MllpConstants.END_BYTE2;
import static ca.uhn.hl7v2.llp.MllpConstants.START_BYTE;

import example.tamponade.app.intake.Original;
import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;

/**
 * The blocks of the minimal lower layer protocol (HL7 MLLP, release 1): {@code <VT> content <FS><CR>}. What stands outside
 * of blocks is passed over. However long a block is, no more of it is kept than of any piece.
 */
final class MllpStream {

    private static final int NO_MORE = -1;

    private final InputStream in;
    private final OutputStream out;

    MllpStream(InputStream in, OutputStream out) {
        this.in = new BufferedInputStream(in, 1 << 16);
        this.out = out;
    }

    /** Waits for the beginning of the next block; false when the other side sends no more. */
    boolean begun() throws IOException {
        int b = in.read();
        while (b != START_BYTE && b != NO_MORE) {
            b = in.read();
        }
        return b == START_BYTE;
    }

    /** The block that has begun; null when the other side sends no more. */
    @Nullable
    Frame content() throws IOException {
        Original.Builder kept = new Original.Builder();
        long length = 0;
        int b = in.read();
        while (b != END_BYTE1 && b != NO_MORE) {
            if (b == START_BYTE) {
                // The block before was broken off and is sent again.
                kept = new Original.Builder();
                length = 0;
            } else {
                if (length < Original.LONGEST) {
                    kept.add(b);
                }
                length++;
            }
            b = in.read();
        }
        return b == NO_MORE ? null : new Frame(kept.build(), length > Original.LONGEST);
    }

    /** Sends a block. The carriage return behind a block that came is passed over with what stands outside of blocks. */
    void send(String content) throws IOException {
        ByteArrayOutputStream block = new ByteArrayOutputStream(content.length() + 16);
        block.write(START_BYTE);
        block.writeBytes(content.getBytes(StandardCharsets.UTF_8));
        block.write(END_BYTE1);
        block.write(END_BYTE2);
        block.writeTo(out);
        out.flush();
    }
}
