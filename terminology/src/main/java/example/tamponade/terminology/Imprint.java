package example.tamponade.terminology;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Iterator;
import java.util.stream.Collectors;

/**
 * What every published artifact says about itself: canonical address, name, version, status, date, publisher. It is
 * written once, in {@code imprint.json}, and stamped on each artifact at build. Source files write {@code {base}} for the
 * canonical base.
 */
public final class Imprint {

    // The one artifact that R4 gives neither a title nor a copyright.
    private static final String UNTITLED = "SearchParameter";

    private static final ObjectMapper JSON = new ObjectMapper();

    private final ObjectNode lines;
    private final String version;
    private final String date;

    private Imprint(ObjectNode lines, String version, String date) {
        this.lines = lines;
        this.version = version;
        this.date = date;
    }

    /** The project's imprint for a version, for example {@code 0.1.0}, dated with the day of an ISO timestamp. */
    public static Imprint of(String version, String timestamp) {
        try (InputStream in = Imprint.class.getResourceAsStream("imprint.json")) {
            return new Imprint((ObjectNode) JSON.readTree(in), version, timestamp.substring(0, 10));
        } catch (IOException e) {
            throw new UncheckedIOException("imprint.json is not readable", e);
        }
    }

    /** The canonical base, without a slash at the end. */
    public String base() {
        return line("base");
    }

    /** The version of every artifact and of the package. */
    public String version() {
        return version;
    }

    /** The day of publication, for example {@code 2026-11-25}. */
    public String date() {
        return date;
    }

    /** A line of {@code imprint.json} by its name. */
    public String line(String name) {
        return lines.required(name).asText();
    }

    /** A source file with the canonical base filled in. */
    public ObjectNode read(Path file) {
        try {
            String text = Files.readString(file, StandardCharsets.UTF_8).replace("{base}", base());
            return (ObjectNode) JSON.readTree(text);
        } catch (IOException e) {
            throw new UncheckedIOException(file + " is not readable: " + e.getMessage(), e);
        }
    }

    /**
     * The artifact with the imprint behind its id. What the source says itself stays: a part of an external system keeps
     * its own address, publisher and copyright, and has no version of ours.
     */
    public ObjectNode stamp(ObjectNode source) {
        String type = source.required("resourceType").asText();
        String id = source.required("id").asText();
        ObjectNode stamped = JSON.createObjectNode();
        stamped.put("resourceType", type).put("id", id);
        if (!source.has("url")) {
            stamped.put("url", base() + "/" + type + "/" + id);
            stamped.put("version", version);
        }
        stamped.put("name", name(id));
        boolean titled = !type.equals(UNTITLED);
        if (titled) {
            stamped.set("title", required(source, "title"));
        }
        stamped.put("status", line("status"));
        stamped.set("experimental", lines.required("experimental"));
        stamped.put("date", date);
        stamped.put("publisher", line("publisher"));
        stamped.set("description", required(source, "description"));
        if (titled) {
            stamped.put("copyright", line("copyright"));
        }
        for (Iterator<String> names = source.fieldNames(); names.hasNext(); ) {
            String name = names.next();
            stamped.set(name, source.get(name));
        }
        return stamped;
    }

    private static JsonNode required(ObjectNode source, String property) {
        JsonNode value = source.get(property);
        if (value == null) {
            throw new IllegalArgumentException(source.path("resourceType").asText() + "/"
                    + source.path("id").asText() + " has no " + property);
        }
        return value;
    }

    private static String name(String id) {
        return Arrays.stream(id.split("[-.]"))
                .map(word -> Character.toUpperCase(word.charAt(0)) + word.substring(1))
                .collect(Collectors.joining());
    }
}
