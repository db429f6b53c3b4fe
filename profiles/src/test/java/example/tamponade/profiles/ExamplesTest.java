package example.tamponade.profiles;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.validation.ResultSeverityEnum;
import ca.uhn.fhir.validation.SingleValidationMessage;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Every example of the package passes. */
class ExamplesTest {

    /** The warnings that an example may draw, and why. */
    private static final Map<String, String> ACCEPTED = Map.of(
            "All_observations_should_have_a_performer",
            "A derived observation is the software's; in R4 a device is named in device, it cannot be a performer.",
            "TYPE_SPECIFIC_CHECKS_DT_QTY_UCUM_ANNOTATIONS",
            "UCUM has no unit for a count or a ratio; the profiles pin the annotation.",
            "TYPE_SPECIFIC_CHECKS_DT_QTY_UCUM_ANNOTATIONS_NOT_IN_UNIT",
            "As above, for a unit in words that a clinician would say.");

    static Stream<Arguments> examples() {
        return Published.examples().map(example -> Arguments.of(Published.text(example, "id"), example));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("examples")
    void passes(String id, ObjectNode example) {
        List<SingleValidationMessage> complaints = Published.validate(example).stream()
                .filter(message -> message.getSeverity() != ResultSeverityEnum.WARNING
                        || !ACCEPTED.containsKey(message.getMessageId()))
                .toList();
        assertThat(complaints).as(id).isEmpty();
    }

    // A site's own code, and a standard one that this project does not publish; by R4 one code of the list is enough.
    @Test
    void moreCodesMayStandBesideOurs() {
        List<ObjectNode> coded = Published.examples()
                .filter(it -> it.at("/code/coding").isArray())
                .map(ObjectNode::deepCopy)
                .toList();
        for (ObjectNode example : coded) {
            ArrayNode codings = (ArrayNode) example.at("/code/coding");
            codings.addObject().put("system", "urn:site:codes").put("code", "A-1");
            codings.addObject().put("system", "http://loinc.org").put("code", "8884-9");
        }
        assertThat(coded).isNotEmpty();
        assertThat(coded.stream().flatMap(it -> Published.errors(it).stream())).isEmpty();
    }

    @Test
    void everyProfileHasOne() {
        Set<String> shown = Published.examples().map(Published::profileOf).collect(Collectors.toSet());
        assertThat(Published.profiles().map(profile -> Published.text(profile, "id")))
                .allMatch(shown::contains);
    }

    @Test
    void examplesReferToExamples() {
        Set<String> known = Published.examples()
                .map(it -> Published.text(it, "resourceType") + "/" + Published.text(it, "id"))
                .collect(Collectors.toSet());
        assertThat(Published.examples().flatMap(example -> example.findValuesAsText("reference").stream()))
                .isNotEmpty()
                .allMatch(known::contains);
    }

    @Test
    void everyExtensionIsUsed() {
        String examples = Published.examples().map(ObjectNode::toString).collect(Collectors.joining());
        assertThat(Published.all("StructureDefinition")
                        .filter(profile -> Published.text(profile, "type").equals("Extension"))
                        .map(extension -> "\"" + Published.text(extension, "url") + "\""))
                .allMatch(examples::contains);
    }
}
