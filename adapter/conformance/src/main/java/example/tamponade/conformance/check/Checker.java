package example.tamponade.conformance.check;

import example.tamponade.conformance.Finding;
import example.tamponade.conformance.rules.Profiles;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.cfg.JsonNodeFeature;
import tools.jackson.databind.json.JsonMapper;

/** Checks resources against the profiles that they name. */
public final class Checker {

    private static final JsonMapper JSON = JsonMapper.builder()
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .disable(JsonNodeFeature.STRIP_TRAILING_BIGDECIMAL_ZEROES)
            .build();

    private final Profiles profiles;

    /** Checks against those profiles. */
    public Checker(Profiles profiles) {
        this.profiles = profiles;
    }

    /** Checks one resource with everything in it. */
    public List<Finding> check(String json) {
        return check(List.of(json));
    }

    /** Checks resources that may refer to one another by type and id. */
    public List<Finding> check(List<String> jsons) {
        Findings findings = new Findings();
        Whole whole = new Whole(profiles);
        List<Element> roots = new ArrayList<>(jsons.size());
        for (String json : jsons) {
            Element root = read(json, findings);
            if (root != null) {
                roots.add(root);
                if (jsons.size() > 1 && root.childText("id") != null) {
                    whole.add(root.type() + "/" + root.childText("id"), root);
                }
            }
        }
        for (Element root : roots) {
            new ResourceCheck(profiles, findings, whole).check(root);
        }
        return findings.all();
    }

    private @org.jspecify.annotations.Nullable Element read(String json, Findings findings) {
        try {
            JsonNode node = JSON.readTree(json);
            return new TreeReader(profiles, findings)
                    .resource(node, node.path("resourceType").asString(""), null, -1);
        } catch (JacksonException e) {
            findings.add(new Finding(Finding.Severity.ERROR, "", "", "not JSON: " + e.getOriginalMessage()));
            return null;
        }
    }
}
