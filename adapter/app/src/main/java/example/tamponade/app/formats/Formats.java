package example.tamponade.app.formats;

import example.tamponade.app.intake.EventAssembly;
import example.tamponade.app.intake.EventFormat;
import example.tamponade.app.intake.EventLineFormat;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Facilities;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.message.MessageFormat;
import example.tamponade.app.register.RegisterFormat;
import example.tamponade.core.protocol.CareProtocol;
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
        EventAssembly assembly = new EventAssembly(reader);
        add(
                new EventLineFormat(reader),
                List.of("application/x-ndjson", "application/jsonl"),
                List.of("jsonl", "ndjson"));
        add(new RegisterFormat(assembly, facilities), List.of("text/csv"), List.of("csv"));
        add(
                new MessageFormat(reader, facilities),
                List.of("application/hl7-v2+er7", "application/hl7-v2", "x-application/hl7-v2+er7"),
                List.of("hl7"));
    }

    private void add(EventFormat format, List<String> mediaTypes, List<String> extensions) {
        byName.put(format.format(), format);
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
