package example.tamponade.app.message;

import ca.uhn.hl7v2.DefaultHapiContext;
import ca.uhn.hl7v2.HL7Exception;
import ca.uhn.hl7v2.HapiContext;
import ca.uhn.hl7v2.model.DataTypeException;
import ca.uhn.hl7v2.model.Segment;
import ca.uhn.hl7v2.model.v251.message.ORU_R01;
import ca.uhn.hl7v2.parser.CanonicalModelClassFactory;
import ca.uhn.hl7v2.parser.EncodingCharacters;
import ca.uhn.hl7v2.parser.ModelClassFactory;
import ca.uhn.hl7v2.parser.ParserConfiguration;
import ca.uhn.hl7v2.parser.PipeParser;
import ca.uhn.hl7v2.validation.impl.ValidationContextFactory;
import java.util.function.BiFunction;

/**
 * The HL7 library, set up for reading.
 *
 * <p>Segments are read one by one and leniently: a strict parser gives up the whole message for one mistyped value, and
 * with it every event in it that is right. What it would have checked is checked value by value, with a reason that names
 * the place.
 */
final class Hl7Parser {

    static final String VERSION = "2.5.1";

    private static final HapiContext CONTEXT = context();

    // One parser for each message: it keeps settings, and making one costs nothing.
    private final PipeParser parser = new PipeParser(CONTEXT);
    private final ORU_R01 message = new ORU_R01(CONTEXT.getModelClassFactory());
    private final EncodingCharacters separators;

    /** Reads segments that are written with those separators. */
    Hl7Parser(EncodingCharacters separators) {
        this.separators = separators;
        message.setParser(parser);
        try {
            // The library looks the separators up in the message that a segment belongs to.
            message.getMSH().getFieldSeparator().setValue(String.valueOf(separators.getFieldSeparator()));
            message.getMSH().getEncodingCharacters().setValue(separators.toString());
        } catch (DataTypeException e) {
            throw new IllegalStateException("two fields of text cannot be set", e);
        }
    }

    private static HapiContext context() {
        ParserConfiguration lenient = new ParserConfiguration();
        lenient.setValidating(false);
        lenient.setDefaultObx2Type("ST");
        lenient.setInvalidObx2Type("ST");
        return new DefaultHapiContext(
                lenient, ValidationContextFactory.noValidation(), new CanonicalModelClassFactory(VERSION));
    }

    /** A parser that writes messages. */
    static PipeParser forWriting() {
        return new PipeParser(CONTEXT);
    }

    /** The classes of the messages' parts. */
    static ModelClassFactory model() {
        return CONTEXT.getModelClassFactory();
    }

    /**
     * Reads a segment.
     *
     * @param make makes an empty one
     * @throws HL7Exception when the text is no such segment
     */
    <T extends Segment> T read(BiFunction<ORU_R01, ModelClassFactory, T> make, String text) throws HL7Exception {
        T segment = make.apply(message, CONTEXT.getModelClassFactory());
        parser.parse(segment, text, separators);
        return segment;
    }
}
