package example.tamponade.app;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The expected results of the samples come from the other program that stands beside them, and from nowhere else. */
class ExpectedResultsTest {

    private static final Path SAMPLES = Path.of("../../samples");

    @ParameterizedTest
    @ValueSource(strings = {"settled", "referred", "bled-again", "warnings", "messy"})
    void theFileIsWhatTheOtherProgramWorksOut(String name) throws IOException {
        Process run = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        SAMPLES.resolve("ExpectedResults.java").toString(),
                        SAMPLES.resolve("events/" + name + ".jsonl").toString())
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();

        assertThat(new String(run.getInputStream().readAllBytes(), UTF_8))
                .isEqualTo(Files.readString(SAMPLES.resolve("expected/" + name + ".json")));
    }

    @Test
    void theOtherProgramSharesNoClassWithTheAdapter() throws IOException {
        assertThat(Files.readString(SAMPLES.resolve("ExpectedResults.java")).lines())
                .filteredOn(it -> it.startsWith("import "))
                .isNotEmpty()
                .allMatch(it -> it.startsWith("import java."));
    }
}
