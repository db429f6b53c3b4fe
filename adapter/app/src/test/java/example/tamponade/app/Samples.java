package example.tamponade.app;

import example.tamponade.app.intake.InputFormat;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The invented cases of the samples module. */
public final class Samples {

    /** Every case, by the name of its file. */
    public static final List<String> CASES = List.of("settled", "referred", "bled-again", "warnings", "messy");

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .build();

    private Samples() {}

    /** The events of a case as JSON lines. */
    public static byte[] events(String name) {
        return bytes("events/" + name + ".jsonl");
    }

    /** A register as CSV. */
    public static byte[] register(String name) {
        return bytes("register/" + name + ".csv");
    }

    /** HL7 version 2 messages. */
    public static byte[] message(String name) {
        return bytes("message/" + name + ".hl7");
    }

    /** Answers to the form, by the name of their file. */
    public static byte[] response(String file) {
        return bytes("response/" + file);
    }

    /** FHIR Observations, by the name of their file. */
    public static byte[] observation(String file) {
        return bytes("observation/" + file);
    }

    /** A retraction of an event that has not come, the only event of its case. */
    public static String retractionAlone(String number) {
        return """
                {"eventId":"0b0f3f6e-4a43-4b8e-9d0e-5b1f2f1f0a01","caseId":"%s","facilityId":"fernglade-hp",\
                "occurredAt":"2026-04-19T14:48:00+03:00","recordedAt":"2026-04-19T14:51:00+03:00",\
                "recordedBy":{"id":"fg-mw-01","role":"midwife"},"retracts":"0b0f3f6e-4a43-4b8e-9d0e-5b1f2f1f0a02"}""".formatted(number);
    }

    /** Every sample in that format. */
    public static List<byte[]> of(InputFormat format) {
        return switch (format) {
            case EVENT -> CASES.stream().map(Samples::events).toList();
            case REGISTER -> List.of(register("settled"), register("settled-spreadsheet"), register("messy"));
            case MESSAGE -> List.of(message("settled"), message("messy"));
            case RESPONSE -> List.of(response("settled.ndjson"), response("two-events.json"));
            case OBSERVATION ->
                List.of(observation("settled.json"), observation("plain.json"), observation("messy.json"));
        };
    }

    /** The results of a case, computed apart from this project's code. */
    public static JsonNode expected(String name) {
        return MAPPER.readTree(bytes("expected/" + name + ".json"));
    }

    /** Writes the events of a case to a file in the folder. */
    public static Path file(String name, Path folder) {
        try {
            return Files.write(folder.resolve(name + ".jsonl"), events(name));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** A file of the samples by its path. */
    public static byte[] bytes(String path) {
        try (InputStream in = Samples.class.getResourceAsStream("/example/tamponade/samples/" + path)) {
            return in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
