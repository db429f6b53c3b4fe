package example.tamponade.app.search;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.RuntimeResourceDefinition;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.Resource;

/**
 * Where in a resource a search looks: the part of FHIRPath that the definitions in use are written in.
 *
 * @param key the elements from the resource down, without its type, for example {@code derivedFrom}
 * @param path the same as the FHIR library walks it
 * @param kept data type of the values, or type of what they refer to; empty: any
 */
public record ElementPath(String key, String path, String kept) {

    // Observation.subject.where(resolve() is Patient); Condition.onset.as(Period); (Provenance.occurred as dateTime)
    private static final Pattern EXPRESSION = Pattern.compile("\\(?\\w+\\.(?<key>\\w+(\\.\\w+)*)"
            + "(\\.where\\(resolve\\(\\) is (?<target>\\w+)\\)|\\.as\\((?<type>\\w+)\\)| as (?<cast>\\w+)\\))?");

    /**
     * The paths that an expression names, those below that type of resource alone.
     *
     * @throws IllegalArgumentException when it is written in more of FHIRPath than is understood here
     */
    static List<ElementPath> of(FhirContext fhir, String type, String expression) {
        return Arrays.stream(expression.split(" \\| "))
                .map(it -> one(fhir, type, it))
                .toList();
    }

    private static ElementPath one(FhirContext fhir, String type, String expression) {
        Matcher matcher = EXPRESSION.matcher(expression);
        if (!matcher.matches()) {
            throw new IllegalArgumentException("not understood: " + expression);
        }
        String key = matcher.group("key");
        RuntimeResourceDefinition definition = fhir.getResourceDefinition(type);
        boolean isChoice = !key.contains(".") && definition.getChildByName(key) == null;
        return new ElementPath(
                key,
                type + "." + key + (isChoice ? "[x]" : ""),
                given(matcher.group("target"), matcher.group("type"), matcher.group("cast")));
    }

    private static String given(String... groups) {
        for (String group : groups) {
            if (group != null) {
                return group;
            }
        }
        return "";
    }

    /** The values there. */
    List<Base> values(FhirContext fhir, Resource resource) {
        return fhir.newTerser().getValues(resource, path, Base.class);
    }
}
