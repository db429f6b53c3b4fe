package example.tamponade.app.search;

import java.util.Optional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * A warning that stands, as it is on record.
 *
 * @param id the id of its Flag
 * @param text what it says
 * @param severity {@code high}, {@code moderate} or {@code low}
 * @param rule the rule that raised it
 * @param protocol the care protocol that the rule is of: its name, version and digest
 * @param since since when it stands, with its offset
 */
public record StandingFlag(String id, String text, String severity, String rule, String protocol, String since) {

    private static final JsonMapper JSON = JsonMapper.builder().build();

    /** The warning of a Flag in JSON; nothing when it does not stand. */
    public static Optional<StandingFlag> of(String flag) {
        JsonNode read = JSON.readTree(flag);
        return read.path("status").asString("").equals("active")
                ? Optional.of(new StandingFlag(
                        read.required("id").asString(),
                        read.path("code").path("text").asString(""),
                        extension(read, "flag-severity", "valueCode"),
                        extension(read, "flag-rule", "valueString"),
                        extension(read, "care-protocol", "valueString"),
                        read.path("period").path("start").asString("")))
                : Optional.empty();
    }

    private static String extension(JsonNode flag, String name, String value) {
        for (JsonNode extension : flag.path("extension")) {
            if (extension.path("url").asString("").endsWith("/" + name)) {
                return extension.path(value).asString("");
            }
        }
        return "";
    }
}
