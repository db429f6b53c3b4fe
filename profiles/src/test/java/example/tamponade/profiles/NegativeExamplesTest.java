package example.tamponade.profiles;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Every negative example fails, for the reason it states. */
class NegativeExamplesTest {

    private static final ObjectMapper JSON = new ObjectMapper();

    static Stream<Arguments> negatives() throws Exception {
        URI folder = Objects.requireNonNull(NegativeExamplesTest.class.getResource("/negative"))
                .toURI();
        try (Stream<Path> files = Files.walk(Path.of(folder))) {
            return files.filter(file -> file.toString().endsWith(".json")).sorted().toList().stream()
                    .map(NegativeExamplesTest::negative);
        }
    }

    private static Arguments negative(Path file) {
        String profile = file.getParent().getFileName().toString();
        String name = file.getFileName().toString().replace(".json", "");
        try {
            String text = Files.readString(file).replace("{base}", Published.BASE);
            return Arguments.of(profile, name, JSON.readTree(text));
        } catch (IOException e) {
            throw new AssertionError(file + " is not JSON", e);
        }
    }

    @ParameterizedTest(name = "{0}: {1}")
    @MethodSource("negatives")
    void fails(String profile, String name, JsonNode negative) {
        ObjectNode example = Published.example(profile, Published.text(negative, "example"));
        ObjectNode changed = Patch.apply(example, negative.required("change"));
        assertThat(Published.text(negative, "why")).endsWith(".");
        assertThat(Published.errors(changed, profile))
                .as(profile + "/" + name)
                .anyMatch(error -> error.contains(negative.required("error").asText()));
    }

    @Test
    void everyProfileHasOne() throws Exception {
        Set<Object> shown = negatives().map(negative -> negative.get()[0]).collect(Collectors.toSet());
        assertThat(Published.profiles().map(profile -> Published.text(profile, "id")))
                .allMatch(shown::contains);
    }
}
