package example.tamponade.app.message;

import ca.uhn.hl7v2.HL7Exception;
import ca.uhn.hl7v2.model.v251.segment.MSH;
import ca.uhn.hl7v2.parser.EncodingCharacters;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A message of which the header is read.
 *
 * @param header what it says of itself; without content when that cannot be read
 * @param refusals why it is not taken at all; empty when it is
 * @param parser reads its segments; null when its separators are not known
 * @param segments its segments, each without its end
 */
record OpenedMessage(
        MessageHeader header,
        List<Reason> refusals,
        @Nullable Hl7Parser parser,
        List<String> segments) {

    // The field separator, four encoding characters that differ from it and from each other, and the separator again.
    private static final Pattern SEPARATORS = Pattern.compile("MSH([^\\w\\s])(?!.{0,3}\\1)([^\\w\\s])(?!\\2)([^\\w\\s])"
            + "(?!\\2|\\3)([^\\w\\s])(?!\\2|\\3|\\4)([^\\w\\s])\\1");

    static OpenedMessage of(RawMessage raw) {
        if (!raw.header()) {
            return closed(
                    raw.original().length() == 0
                            ? new Reason(ReasonCode.EMPTY_INPUT, "", "nothing was sent", "send a message")
                            : malformed("there is no message header", "begin each message with MSH"));
        }
        List<Reason> refusals = new ArrayList<>();
        String text = text(raw, refusals);
        if (!SEPARATORS.matcher(text).lookingAt()) {
            return closed(malformed(
                    "MSH-1 and MSH-2 do not give five different separators",
                    "use the separators that the standard proposes in 2.5.4"));
        }
        List<String> segments = List.of(text.split("[\r\n]+"));
        if (segments.get(0).indexOf('\0') >= 0) {
            // The library writes another character for it: the answer would name another message.
            return closed(malformed("MSH has a NUL character", "write the header in text only"));
        }
        Hl7Parser parser = new Hl7Parser(new EncodingCharacters(text.charAt(3), text.substring(4, 8)));
        try {
            MessageHeader header = MessageHeader.of(parser.read(MSH::new, segments.get(0)));
            refusals.addAll(header.refusals());
            return new OpenedMessage(header, refusals, parser, segments);
        } catch (HL7Exception e) {
            return closed(malformed("MSH cannot be read: " + e.getMessage(), "write it as the standard has it"));
        }
    }

    // The header is needed for the answer whatever is wrong with the rest, and it is readable byte by byte.
    private static String text(RawMessage raw, List<Reason> refusals) {
        String byByte = new String(raw.original().beginning(EventReader.MAX_BYTES), StandardCharsets.ISO_8859_1);
        if (raw.original().tooLongForAnEvent()) {
            refusals.add(new Reason(
                    ReasonCode.TOO_LONG,
                    "",
                    "the message has " + raw.original().length() + " bytes; at most " + EventReader.MAX_BYTES
                            + " are taken",
                    "send fewer groups in each message"));
            return byByte;
        }
        String code = MessageCharset.code(byByte);
        Charset charset = MessageCharset.of(code);
        if (charset == null) {
            refusals.add(new Reason(
                            ReasonCode.NOT_SUPPORTED,
                            "",
                            "the character set '" + Texts.shortened(code) + "' is not read",
                            "send UTF-8 and write UNICODE UTF-8 in MSH-18")
                    .at(MessagePlace.HEADER.field(18).text()));
            return byByte;
        }
        String text = MessageCharset.decode(raw.original().bytes(), charset);
        if (text == null) {
            refusals.add(new Reason(
                    ReasonCode.WRONG_ENCODING,
                    "",
                    "the bytes are not " + charset.name(),
                    "write the character set of the message in MSH-18; without one it is UTF-8"));
        }
        return text == null ? byByte : text;
    }

    private static OpenedMessage closed(Reason reason) {
        return new OpenedMessage(MessageHeader.NONE, List.of(reason), null, List.of());
    }

    private static Reason malformed(String message, String remedy) {
        return new Reason(ReasonCode.MALFORMED_MESSAGE, "", message, remedy).at(MessagePlace.HEADER.text());
    }
}
