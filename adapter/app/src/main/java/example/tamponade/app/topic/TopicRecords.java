package example.tamponade.app.topic;

import example.tamponade.app.formats.Formats;
import example.tamponade.app.intake.EventFormat;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.intake.ReasonCode;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.common.header.Header;
import org.jspecify.annotations.Nullable;

/**
 * Reads the records of a topic. A record's value is one event in JSON; where it has a header {@code content-type}, it is
 * read in the format of that media type.
 */
final class TopicRecords {

    private static final String CONTENT_TYPE = "content-type";

    private final Formats formats;

    TopicRecords(Formats formats) {
        this.formats = formats;
    }

    /** The pieces of a record; each names the record as its place. */
    List<Piece> pieces(ConsumerRecord<?, byte @Nullable []> item) {
        String place = item.topic() + " partition " + item.partition() + " offset " + item.offset();
        byte[] value = item.value();
        if (value == null || value.length == 0) {
            return List.of(refused(place, "the record has no value", "send the event as the record's value"));
        }
        Header header = item.headers().lastHeader(CONTENT_TYPE);
        if (header == null) {
            Original original = Original.of(value);
            return List.of(new Piece(
                    InputFormat.EVENT, place, original, formats.reader().read(original)));
        }
        String mediaType = new String(header.value(), StandardCharsets.UTF_8);
        return formats.ofMediaType(mediaType)
                .map(it -> pieces(it, value, place))
                .orElseGet(() -> List.of(new Piece(
                        InputFormat.EVENT,
                        place,
                        Original.of(value),
                        Intake.Refused.of(
                                ReasonCode.INVALID_VALUE,
                                "",
                                "no format has the media type of the header content-type",
                                "use one of " + String.join(", ", formats.mediaTypes())))));
    }

    private static List<Piece> pieces(EventFormat format, byte[] value, String place) {
        List<Piece> pieces = new ArrayList<>();
        try (Pieces read = format.open(new ByteArrayInputStream(value))) {
            for (Piece piece = read.next(); piece != null; piece = read.next()) {
                pieces.add(new Piece(
                        piece.format(), place + ", " + piece.place(), piece.original(), piece.part(), piece.intake()));
            }
        } catch (IOException e) {
            throw new UncheckedIOException("bytes in memory can always be read", e);
        }
        return pieces.isEmpty()
                ? List.of(refused(place, "the record holds no event", "send the event as the record's value"))
                : pieces;
    }

    private static Piece refused(String place, String message, String remedy) {
        return new Piece(
                InputFormat.EVENT,
                place,
                Original.of(new byte[0]),
                Intake.Refused.of(ReasonCode.EMPTY_INPUT, "", message, remedy));
    }
}
