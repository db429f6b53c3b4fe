package example.tamponade.app.intake;

import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.CaseId;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.EventSource;
import example.tamponade.core.event.EventType;
import example.tamponade.core.event.Laboratory;
import example.tamponade.core.event.Recorder;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.core.protocol.Finding;
import example.tamponade.core.protocol.Plausibility;
import example.tamponade.core.protocol.Setting;
import example.tamponade.core.quantity.Conversion;
import example.tamponade.core.quantity.Ucum;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.databind.DatabindException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Reads one event from its JSON text. All formats come down to this reader, so every event meets the same checks. */
public final class EventReader {

    /** The most bytes that one event may have. */
    public static final int MAX_BYTES = 1 << 20;

    // What a bedside reading can have at the very most; beyond it a number is a fault of the sender.
    private static final int MAX_DIGITS = 15;

    // XML has no place for these, and a narrative is XML: Extensible Markup Language 1.0, section 2.2.
    private static final Pattern NO_TEXT =
            Pattern.compile("[\\x00-\\x08\\x0B\\x0C\\x0E-\\x1F\\x7F\\uFFFE\\uFFFF\\p{Cs}]");

    private final CareProtocol protocol;
    private final Clock clock;
    private final EventShapes shapes;

    /**
     * Makes a reader.
     *
     * @param protocol judges which values are possible
     * @param clock tells the time of receipt; an event cannot lie after it
     */
    public EventReader(CareProtocol protocol, Clock clock) {
        this.protocol = protocol;
        this.clock = clock;
        this.shapes = new EventShapes(EventSchema.ROOT);
    }

    /** The published schema of the events. */
    public static String schemaText() {
        try (InputStream in = BedsideEvent.class.getResourceAsStream("bedside-event.schema.json")) {
            return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Reads back an event that was accepted once; its values are not judged again. */
    public static EventEnvelope stored(String payload) {
        ObjectNode node = (ObjectNode) EventJson.parse(payload);
        String type = node.path("type").asString("");
        if (node.get("data") instanceof ObjectNode data) {
            Quantities.convert(type, data, new ArrayList<>());
        }
        return envelope(node, type);
    }

    /** Reads an event from bytes, which must be UTF-8; a byte order mark is passed over. */
    public Intake read(Original original) {
        return LongPieces.read(original.length(), () -> Intake.guarded(() -> readWhole(original)));
    }

    private Intake readWhole(Original original) {
        if (original.tooLongForAnEvent()) {
            return tooLong(original.length());
        }
        byte[] bytes = original.bytes();
        try {
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            return read(text.startsWith("\uFEFF") ? text.substring(1) : text);
        } catch (CharacterCodingException e) {
            return Intake.Refused.of(
                    ReasonCode.WRONG_ENCODING, "", "the text is not UTF-8", "save and send the text as UTF-8");
        }
    }

    /**
     * Reads an event that was put together from another format.
     *
     * @param original the bytes that it came in
     */
    Intake read(ObjectNode event, Original original) {
        return Intake.guarded(() -> readAssembled(event, original));
    }

    private Intake readAssembled(ObjectNode event, Original original) {
        List<Reason> reasons = reasons(event);
        String text = reasons.isEmpty() ? event.toString() : "";
        Intake read = reasons.isEmpty() ? read(text, event) : new Intake.Refused(reasons);
        return read instanceof Intake.Taken taken ? new Intake.Taken(taken.event(), text, original.digest()) : read;
    }

    private static Intake tooLong(long length) {
        return Intake.Refused.of(
                ReasonCode.TOO_LONG,
                "",
                "the event has " + length + " bytes; at most " + MAX_BYTES + " are taken",
                "send one event in one object; an event has a few hundred bytes");
    }

    private Intake read(String text) {
        try {
            JsonNode node = EventJson.parse(text);
            List<Reason> reasons = reasons(node);
            return reasons.isEmpty() ? read(text, (ObjectNode) node) : new Intake.Refused(reasons);
        } catch (NumberFormatException e) {
            // Beyond two thousand million an exponent is no number to Java either, and the parser does not say where.
            return Intake.Refused.of(
                    ReasonCode.INVALID_VALUE,
                    "",
                    "a number has an exponent out of all range",
                    "send readings as they were read");
        } catch (JacksonException e) {
            TokenStreamLocation place = e.getLocation();
            return Intake.Refused.of(
                    ReasonCode.MALFORMED_JSON,
                    "",
                    "not JSON at column " + (place == null ? 1 : place.getColumnNr()) + ": " + e.getOriginalMessage(),
                    "correct the JSON at that place; one event is one object");
        }
    }

    // A number of a million digits is refused before anything is asked of it.
    private List<Reason> reasons(JsonNode node) {
        List<Reason> reasons = new ArrayList<>();
        oddities(node, "", reasons);
        return reasons.isEmpty() ? shapes.reasons(node) : reasons;
    }

    private Intake read(String text, ObjectNode node) {
        List<Reason> reasons = new ArrayList<>();
        String type = node.path("type").asString("");
        if (node.get("data") instanceof ObjectNode data) {
            Quantities.convert(type, data, reasons);
        }
        if (!reasons.isEmpty()) {
            return new Intake.Refused(reasons);
        }
        try {
            EventEnvelope event = envelope(node, type);
            reasons.addAll(units(event.data()));
            reasons.addAll(impossible(event));
            return reasons.isEmpty() ? new Intake.Taken(event, text, Piece.digest(text)) : new Intake.Refused(reasons);
        } catch (DatabindException e) {
            String pointer = pointer(e);
            return Intake.Refused.of(
                    ReasonCode.INVALID_VALUE,
                    pointer,
                    "'" + node.at(pointer).asString("") + "' does not exist",
                    "send a date or time that exists, for example 2026-03-02T23:52:00+05:45");
        }
    }

    private static EventEnvelope envelope(ObjectNode node, String type) {
        EventType eventType = EventType.ofCode(type);
        return new EventEnvelope(
                EventJson.bind(node.get("eventId"), UUID.class),
                caseId(node),
                node.get("facilityId").stringValue(),
                time(node, "occurredAt"),
                time(node, "recordedAt"),
                EventJson.bind(node.get("recordedBy"), Recorder.class),
                optional(node, "source", EventSource.class),
                optional(node, "corrects", UUID.class),
                optional(node, "retracts", UUID.class),
                eventType == null ? null : bindData(node.get("data"), eventType.dataType()));
    }

    // A number is the sender's own where nothing else is said.
    private static @Nullable CaseId caseId(ObjectNode node) {
        String number = node.path("caseId").asString(null);
        String facility =
                node.path("caseFacility").asString(node.path("facilityId").stringValue());
        return number == null ? null : new CaseId(facility, number);
    }

    private static OffsetDateTime time(ObjectNode node, String property) {
        try {
            return EventJson.bind(node.get(property), OffsetDateTime.class);
        } catch (DatabindException e) {
            throw e.prependPath(node, property);
        }
    }

    private static <T> @Nullable T optional(ObjectNode node, String property, Class<T> type) {
        JsonNode value = node.get(property);
        return value == null ? null : EventJson.bind(value, type);
    }

    private static BedsideEvent bindData(JsonNode data, Class<? extends BedsideEvent> type) {
        try {
            return EventJson.bind(data, type);
        } catch (DatabindException e) {
            throw e.prependPath(data, "data");
        }
    }

    private List<Reason> impossible(EventEnvelope event) {
        List<Reason> reasons = new ArrayList<>();
        for (Finding finding : Plausibility.judge(event, protocol)) {
            if (finding.grade() == Finding.Grade.IMPOSSIBLE) {
                reasons.add(
                        new Reason(ReasonCode.IMPOSSIBLE_VALUE, finding.path(), finding.message(), finding.remedy()));
            }
        }
        OffsetDateTime latest = OffsetDateTime.now(clock).plus(protocol.duration(Setting.CLOCK_TOLERANCE));
        if (event.occurredAt().isAfter(latest)
                && reasons.stream().noneMatch(it -> it.path().equals("/occurredAt"))) {
            reasons.add(new Reason(
                    ReasonCode.IMPOSSIBLE_VALUE,
                    "/occurredAt",
                    event.occurredAt() + " has not come yet",
                    "correct the time it happened, or set the recording clock"));
        }
        return reasons;
    }

    private static List<Reason> units(@Nullable BedsideEvent data) {
        if (!(data instanceof Laboratory result)) {
            return List.of();
        }
        String usual = result.analyte().unit();
        if (Ucum.convert(result.value(), result.unit(), usual) instanceof Conversion.Refused refused) {
            return List.of(wrongUnit(refused.reason(), usual));
        }
        return result.analyte().isReportedIn(result.unit())
                ? List.of()
                : List.of(wrongUnit("no result is written in '" + result.unit() + "'", usual));
    }

    private static Reason wrongUnit(String message, String usual) {
        return new Reason(
                ReasonCode.WRONG_UNIT,
                "/data/unit",
                message,
                "send the result in " + usual + " or a unit of the same kind that laboratories use");
    }

    // What the schema cannot say: numbers that no reading has, and characters that FHIR has no place for.
    private static void oddities(JsonNode node, String path, List<Reason> reasons) {
        if (node.isObject()) {
            node.propertyNames().forEach(it -> oddities(node.get(it), path + "/" + it, reasons));
        } else if (node.isArray()) {
            for (int i = 0; i < node.size(); i++) {
                oddities(node.get(i), path + "/" + i, reasons);
            }
        } else if (node.isNumber() && !bedsideNumber(node.decimalValue())) {
            reasons.add(new Reason(
                    ReasonCode.INVALID_VALUE,
                    path,
                    "the number has more than " + MAX_DIGITS + " digits",
                    "send the reading as it was read"));
        } else if (node.isString() && NO_TEXT.matcher(node.stringValue()).find()) {
            reasons.add(new Reason(
                    ReasonCode.INVALID_VALUE,
                    path,
                    "the text has a control character, or half a character",
                    "send whole characters, and of those that are not seen only spaces, tabs and line ends"));
        }
    }

    private static boolean bedsideNumber(BigDecimal number) {
        return number.precision() <= MAX_DIGITS && Math.abs((long) number.scale()) <= MAX_DIGITS;
    }

    private static String pointer(DatabindException e) {
        StringBuilder pointer = new StringBuilder();
        e.getPath()
                .forEach(it -> pointer.append('/')
                        .append(it.getPropertyName() == null ? String.valueOf(it.getIndex()) : it.getPropertyName()));
        return pointer.toString();
    }
}
