package example.tamponade.app.formats;

import example.tamponade.app.intake.EventFormat;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Pieces;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.json.JsonFactory;

/** JSON that may be events or resources: the first object's {@code resourceType} tells. */
final class JsonFormat implements EventFormat {

    private static final JsonFactory JSON = new JsonFactory();

    private final EventFormat events;
    private final EventFormat responses;
    private final EventFormat observations;

    JsonFormat(EventFormat events, EventFormat responses, EventFormat observations) {
        this.events = events;
        this.responses = responses;
        this.observations = observations;
    }

    @Override
    public Pieces open(InputStream in) {
        BufferedInputStream seen = new BufferedInputStream(in);
        return (switch (resourceType(seen)) {
                    case "" -> events;
                    case "QuestionnaireResponse" -> responses;
                    default -> observations;
                })
                .open(seen);
    }

    private static String resourceType(BufferedInputStream in) {
        try {
            in.mark(EventReader.MAX_BYTES);
            byte[] beginning = in.readNBytes(EventReader.MAX_BYTES);
            in.reset();
            return resourceType(beginning);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String resourceType(byte[] beginning) {
        try (JsonParser parser = JSON.createParser(ObjectReadContext.empty(), beginning)) {
            if (parser.nextToken() == JsonToken.START_OBJECT) {
                while (parser.nextToken() == JsonToken.PROPERTY_NAME) {
                    String name = parser.currentName();
                    JsonToken value = parser.nextToken();
                    if (name.equals("resourceType") && value == JsonToken.VALUE_STRING) {
                        return parser.getString();
                    }
                    parser.skipChildren();
                }
            }
        } catch (JacksonException e) {
            // What is wrong with it its format will say, with the place.
            return "";
        }
        return "";
    }
}
