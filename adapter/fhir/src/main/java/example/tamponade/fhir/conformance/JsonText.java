package example.tamponade.fhir.conformance;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/** Reads JSON as someone wrote it: one resource, or one a line. */
final class JsonText {

    private static final ObjectMapper JSON = new ObjectMapper()
            .enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS);
    private static final Pattern NAME = Pattern.compile("[A-Za-z]+(/[A-Za-z0-9.-]{1,64})?");

    private final List<ResourceText> resources = new ArrayList<>();
    private final List<Problem> problems = new ArrayList<>();

    private JsonText() {}

    static JsonText read(String text) {
        JsonText read = new JsonText();
        List<String> lines = text.lines().toList();
        List<String> filled = lines.stream().filter(it -> !it.isBlank()).toList();
        if (filled.isEmpty()) {
            read.problem(1, "there is nothing here; give a FHIR resource as JSON");
        } else if (filled.size() > 1 && isObject(filled.get(0))) {
            for (int i = 0; i < lines.size(); i++) {
                read.add(lines.get(i), i);
            }
        } else {
            read.add(text, 0);
        }
        return read;
    }

    /** What is JSON and says that it is a resource. */
    List<ResourceText> resources() {
        return resources;
    }

    /** What is not, with its line. */
    List<Problem> problems() {
        return problems;
    }

    private void add(String text, int linesBefore) {
        if (text.isBlank()) {
            return;
        }
        try {
            String name = name(JSON.readTree(text));
            if (NAME.matcher(name).matches()) {
                resources.add(new ResourceText(name, text));
            } else {
                problem(
                        linesBefore + 1,
                        "this is no FHIR resource; give a JSON object with a resourceType and a FHIR id");
            }
        } catch (JsonProcessingException e) {
            JsonLocation at = e.getLocation() == null ? JsonLocation.NA : e.getLocation();
            problem(
                    Math.max(1, at.getLineNr()) + linesBefore,
                    "not JSON at column " + Math.max(1, at.getColumnNr()) + ": " + e.getOriginalMessage()
                            + "; correct the text there and check again");
        }
    }

    private static String name(JsonNode resource) {
        String type = resource.path("resourceType").asText();
        return resource.has("id") ? type + "/" + resource.path("id").asText() : type;
    }

    private static boolean isObject(String line) {
        try {
            return JSON.readTree(line).isObject();
        } catch (JsonProcessingException e) {
            return false;
        }
    }

    private void problem(int line, String message) {
        problems.add(new Problem(Problem.Severity.ERROR, "line " + line, "", message));
    }
}
