package example.tamponade.app.formats;

import example.tamponade.app.intake.EventAssembly;
import example.tamponade.app.intake.EventDocumentFormat;
import example.tamponade.app.intake.EventFormat;
import example.tamponade.app.intake.EventLineFormat;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.message.MessageFormat;
import example.tamponade.app.observation.ObservationFormat;
import example.tamponade.app.register.RegisterFormat;
import example.tamponade.app.response.ResponseFormat;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.terms.EventForm;
import example.tamponade.fhir.terms.Terms;
import java.nio.file.Path;
import java.time.Clock;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;

/** Which formats are there? */
public final class Formats {

    private final EventReader reader;
    private final Map<InputFormat, EventFormat> byName = new EnumMap<>(InputFormat.class);
    private final Map<String, EventFormat> byMediaType = new LinkedHashMap<>();
    private final Map<String, EventFormat> byExtension = new LinkedHashMap<>();

    /**
     * All formats.
     *
     * @param protocol judges which values are possible
     * @param facilities places times without an offset
     * @param clock tells the time of receipt
     */
    public Formats(CareProtocol protocol, Facilities facilities, Clock clock) {
        this.reader = new EventReader(protocol, clock);
        EventForm form = EventForm.read();
        EventFormat lines = new EventLineFormat(reader);
        EventFormat responses = new ResponseFormat(form, reader);
        EventFormat observations = new ObservationFormat(Terms.read(), form, reader);
        EventFormat register = new RegisterFormat(new EventAssembly(reader), facilities);
        EventFormat messages = new MessageFormat(reader, facilities);
        byName.put(InputFormat.EVENT, lines);
        byName.put(InputFormat.REGISTER, register);
        byName.put(InputFormat.MESSAGE, messages);
        byName.put(InputFormat.RESPONSE, responses);
        byName.put(InputFormat.OBSERVATION, observations);
        EventFormat resources = new JsonFormat(observations, responses, observations);
        EventFormat document = new JsonFormat(new EventDocumentFormat(reader), responses, observations);
        add(lines, List.of("application/x-ndjson", "application/jsonl"), List.of());
        add(register, List.of("text/csv"), List.of("csv"));
        add(messages, List.of("application/hl7-v2+er7", "application/hl7-v2"), List.of("hl7"));
        add(resources, List.of("application/fhir+json", "application/fhir+ndjson"), List.of());
        add(document, List.of(), List.of("json"));
        add(new JsonFormat(lines, responses, observations), List.of(), List.of("jsonl", "ndjson"));
    }

    private void add(EventFormat format, List<String> mediaTypes, List<String> extensions) {
        mediaTypes.forEach(it -> byMediaType.put(it, format));
        extensions.forEach(it -> byExtension.put(it, format));
    }

    /** Reads single events. */
    public EventReader reader() {
        return reader;
    }

    /** The format of that name. */
    public EventFormat of(InputFormat format) {
        return Objects.requireNonNull(byName.get(format));
    }

    /**
     * The format of a media type, without regard to its parameters; empty when there is none.
     *
     * @param mediaType for example {@code text/csv; charset=utf-8}
     */
    public Optional<EventFormat> ofMediaType(String mediaType) {
        String bare = mediaType.split(";", 2)[0].strip().toLowerCase(Locale.ROOT);
        return Optional.ofNullable(byMediaType.get(bare));
    }

    /** The media types that there are. */
    public List<String> mediaTypes() {
        return List.copyOf(byMediaType.keySet());
    }

    /** The format of a file by the end of its name; bedside events in JSON lines when the end says nothing. */
    public EventFormat ofFile(Path file) {
        String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
        return byExtension.getOrDefault(name.substring(name.lastIndexOf('.') + 1), of(InputFormat.EVENT));
    }
}
