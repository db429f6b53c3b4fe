package example.tamponade.app.resources;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.IParser;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Resource;
import tools.jackson.core.JacksonException;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.cfg.JsonNodeFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Reads one kind of FHIR R4 resource from JSON; an element that R4 does not have is an error. Safe for several threads. */
public final class StrictReader<T extends Resource> {

    private static final JsonMapper JSON = JsonMapper.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .disable(JsonNodeFeature.STRIP_TRAILING_BIGDECIMAL_ZEROES)
            .build();

    private final Class<T> type;

    /** Reads that kind. */
    public StrictReader(Class<T> type) {
        this.type = type;
    }

    /** The resource as a tree of JSON, or the reason why it is none. */
    public sealed interface Tree {

        /** The root of the resource, of the right kind. */
        record Read(ObjectNode root) implements Tree {}

        /** Why there is none. */
        record Refused(Reason reason) implements Tree {}
    }

    /** Reads the JSON and looks whether it is a resource of this kind. */
    public Tree tree(byte[] bytes) {
        try {
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            JsonNode root = JSON.readTree(text);
            if (!(root instanceof ObjectNode object)) {
                return refused(
                        ReasonCode.NOT_AN_OBJECT, "this is no resource", "send a FHIR resource as a JSON object");
            }
            String beyond = NumberRange.firstBeyond(object, "");
            return beyond == null ? ofType(object) : outOfRange(beyond);
        } catch (NumberFormatException e) {
            return outOfRange("");
        } catch (CharacterCodingException e) {
            return refused(ReasonCode.WRONG_ENCODING, "the text is not UTF-8", "save and send the text as UTF-8");
        } catch (JacksonException e) {
            TokenStreamLocation at = e.getLocation();
            return refused(
                    ReasonCode.MALFORMED_JSON,
                    "not JSON at line " + (at == null ? 1 : at.getLineNr()) + ", column "
                            + (at == null ? 1 : at.getColumnNr()) + ": " + e.getOriginalMessage(),
                    "correct the JSON at that place");
        }
    }

    private Tree ofType(ObjectNode root) {
        String wanted = type.getSimpleName();
        String given = root.path("resourceType").asString("");
        if (given.equals(wanted)) {
            return new Tree.Read(root);
        }
        String message = given.isEmpty()
                ? "the resource does not say what it is"
                : "a resource of the type '" + shortened(given) + "' cannot be taken here";
        return refused(
                ReasonCode.NOT_SUPPORTED, message, "send resources of the type " + wanted + ", alone or in a Bundle");
    }

    private static Tree outOfRange(String path) {
        return new Tree.Refused(new Reason(
                ReasonCode.INVALID_VALUE,
                path,
                "a number has an exponent out of all range",
                "send readings as they were read"));
    }

    private static Tree refused(ReasonCode code, String message, String remedy) {
        return new Tree.Refused(new Reason(code, "", message, remedy));
    }

    /** Reads the tree as R4. */
    // Whatever the library stumbles over in what a sender wrote must come back to the sender as a reason.
    @SuppressWarnings("CatchingUnchecked")
    public ParsedResource<T> parse(ObjectNode root) {
        List<Reason> reasons = new ArrayList<>();
        IParser parser = FhirContext.forR4Cached().newJsonParser().setParserErrorHandler(new ParseReasons(reasons));
        try {
            return new ParsedResource<>(parser.parseResource(type, root.toString()), reasons);
        } catch (RuntimeException e) {
            return ParsedResource.refused(new Reason(
                    ReasonCode.INVALID_VALUE,
                    "",
                    "not FHIR R4: " + shortened(String.valueOf(e.getMessage())),
                    "send the resource as FHIR R4 writes it"));
        }
    }

    static String shortened(String text) {
        return text.length() > 200 ? text.substring(0, 200) + "…" : text;
    }
}
