package example.tamponade.app.resources;

import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.TokenStreamFactory;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.core.exc.JacksonIOException;
import tools.jackson.core.json.JsonFactory;

/** The resources of JSON documents that follow one another: a document, or each entry of one that is a Bundle. */
final class DocumentParts implements Closeable {

    // Without detection of other encodings than UTF-8, in which the parser knows no byte offsets.
    private static final JsonFactory JSON = JsonFactory.builder()
            .disable(TokenStreamFactory.Feature.CHARSET_DETECTION)
            // What follows the place that cannot be read is kept too.
            .disable(StreamReadFeature.AUTO_CLOSE_SOURCE)
            .streamReadConstraints(StreamReadConstraints.builder()
                    .maxNestingDepth(100)
                    .maxStringLength(EventReader.MAX_BYTES)
                    .build())
            .build();

    private final String prefix;
    private final String whole;
    private final Capture capture;
    private final JsonParser parser;
    private int documents;
    private int entries = -1;
    private boolean bundle;
    private boolean ended;

    /**
     * Reads the stream, which is closed with this.
     *
     * @param whole where a document that is no Bundle stands, for example {@code line 3}; empty when it is all there is
     */
    DocumentParts(InputStream in, String whole) {
        this.whole = whole;
        this.prefix = whole.isEmpty() ? "" : whole + ", ";
        this.capture = new Capture(in);
        this.parser = JSON.createParser(ObjectReadContext.empty(), capture);
    }

    /** The next part; null at the end. What is no JSON ends the document, as the last part. */
    @Nullable
    ResourcePart next() throws IOException {
        try {
            return ended ? null : parsed();
        } catch (JacksonIOException e) {
            throw e.getCause();
        } catch (JacksonException e) {
            ended = true;
            return malformed(e);
        }
    }

    private @Nullable ResourcePart parsed() throws IOException {
        while (true) {
            if (bundle) {
                if (parser.nextToken() != JsonToken.END_ARRAY) {
                    entries++;
                    return entry();
                }
                bundle = false;
                restOfBundle();
            }
            JsonToken token = parser.nextToken();
            if (token == null) {
                ended = true;
                return null;
            }
            documents++;
            start();
            ResourcePart part = token == JsonToken.START_OBJECT ? document() : noObject(place());
            if (part != null) {
                return part;
            }
        }
    }

    // A resource that is no Bundle; null when its entries come now.
    private @Nullable ResourcePart document() throws IOException {
        while (parser.nextToken() != JsonToken.END_OBJECT) {
            boolean entry = parser.currentName().equals("entry");
            if (parser.nextToken() == JsonToken.START_ARRAY && entry) {
                bundle = true;
                entries = -1;
                return null;
            }
            parser.skipChildren();
        }
        return part(place());
    }

    private void restOfBundle() {
        while (parser.nextToken() != JsonToken.END_OBJECT) {
            parser.nextToken();
            parser.skipChildren();
        }
    }

    private ResourcePart entry() throws IOException {
        start();
        String place = prefix + "Bundle.entry[" + entries + "]";
        if (parser.currentToken() != JsonToken.START_OBJECT) {
            return noObject(place);
        }
        ResourcePart resource = null;
        while (parser.nextToken() != JsonToken.END_OBJECT) {
            boolean wanted = parser.currentName().equals("resource") && resource == null;
            if (parser.nextToken() == JsonToken.START_OBJECT && wanted) {
                start();
                parser.skipChildren();
                resource = part(place + ".resource");
            } else {
                parser.skipChildren();
            }
        }
        return resource == null ? withoutResource(place) : resource;
    }

    private ResourcePart withoutResource(String place) throws IOException {
        return new ResourcePart(
                place,
                capture.upTo(parser.currentLocation().getByteOffset()),
                new Reason(
                                ReasonCode.MISSING_PROPERTY,
                                "",
                                "the entry holds no resource",
                                "send the resource itself; to withdraw one, send it with the status entered-in-error")
                        .at(place));
    }

    private ResourcePart noObject(String place) throws IOException {
        parser.skipChildren();
        return new ResourcePart(
                place,
                capture.upTo(parser.currentLocation().getByteOffset()),
                new Reason(ReasonCode.NOT_AN_OBJECT, "", "this is no resource", "send a FHIR resource as a JSON object")
                        .at(place));
    }

    private void start() throws IOException {
        capture.dropBefore(parser.currentTokenLocation().getByteOffset());
    }

    private ResourcePart part(String place) throws IOException {
        Original original = capture.upTo(parser.currentLocation().getByteOffset());
        return new ResourcePart(
                place,
                original,
                original.tooLongForAnEvent()
                        ? List.of(tooLong(original.length()).at(place))
                        : List.of());
    }

    static Reason tooLong(long length) {
        return new Reason(
                ReasonCode.TOO_LONG,
                "",
                "the resource has " + length + " bytes; at most " + EventReader.MAX_BYTES + " are taken",
                "send fewer events in one resource; leave out attachments");
    }

    private ResourcePart malformed(JacksonException e) throws IOException {
        TokenStreamLocation at = e.getLocation();
        String message = e.getOriginalMessage();
        String where = at == null ? "" : " at line " + at.getLineNr() + ", column " + at.getColumnNr();
        boolean encoding = message.toLowerCase(Locale.ROOT).contains("utf-8");
        Reason reason = encoding
                ? new Reason(ReasonCode.WRONG_ENCODING, "", "not UTF-8" + where, "save and send the text as UTF-8")
                : new Reason(
                        ReasonCode.MALFORMED_JSON,
                        "",
                        "not JSON" + where + ": " + message,
                        "correct the JSON at that place and send from there on again");
        String place = bundle ? prefix + "Bundle.entry[" + Math.max(entries, 0) + "]" : place();
        return new ResourcePart(place, capture.toTheEnd(), reason.at(place));
    }

    private String place() {
        if (!whole.isEmpty()) {
            return whole;
        }
        return documents > 1 ? "resource " + documents : "the resource";
    }

    @Override
    public void close() throws IOException {
        try (capture) {
            parser.close();
        } catch (JacksonIOException e) {
            throw e.getCause();
        }
    }
}
