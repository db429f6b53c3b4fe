package example.tamponade.profiles.build;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * The codes of a code system as a regular expression, for {@code {codes:<id>}} in a constraint: so an expression can ask for
 * one of them without repeating them.
 */
final class CodePatterns {

    private static final Pattern PLACE = Pattern.compile("\\{codes:([a-z0-9-]+)}");

    private final List<ObjectNode> terminology;

    CodePatterns(List<ObjectNode> terminology) {
        this.terminology = terminology;
    }

    String in(String expression) {
        return PLACE.matcher(expression).replaceAll(place -> codes(place.group(1)));
    }

    private String codes(String codeSystem) {
        return terminology.stream()
                .filter(resource -> resource.path("resourceType").asText().equals("CodeSystem"))
                .filter(resource -> resource.path("id").asText().equals(codeSystem))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no code system " + codeSystem))
                .required("concept")
                .valueStream()
                .map(concept -> concept.required("code").asText().replace(".", "[.]"))
                .collect(Collectors.joining("|"));
    }
}
