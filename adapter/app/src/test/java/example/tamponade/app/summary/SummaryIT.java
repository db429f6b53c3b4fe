package example.tamponade.app.summary;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.CommandRun;
import example.tamponade.app.Samples;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

class SummaryIT {

    @TempDir
    private Path folder;

    @ParameterizedTest
    @ValueSource(strings = {"settled", "referred", "bled-again", "warnings", "messy"})
    void thePageTellsWhatWasComputedApart(String name) {
        JsonNode expected = Samples.expected(name);

        CommandRun run = summary(name, "text");

        assertThat(run.code()).isEqualTo(name.equals("messy") ? 2 : 0);
        assertThat(run.out())
                .contains("Case " + expected.path("case").asString())
                .contains("Cumulative blood loss: "
                        + expected.path("cumulativeBloodLossMl").decimalValue() + " mL")
                .contains("Time in situ: "
                        + expected.path("tamponades")
                                .get(0)
                                .path("minutesInSitu")
                                .asInt() + " min")
                .contains("not a medical device", "Local protocols", "inputs, method and source");
    }

    @Test
    void showsWhatIsMissingAsMissing() {
        assertThat(summary("messy", "text").out()).contains("Volume in the retention chamber: not recorded");
        assertThat(summary("referred", "text").out()).contains("Insertion to control: not recorded");
    }

    @Test
    void tellsEachStepOfAReferral() {
        assertThat(summary("referred", "text").out())
                .containsPattern("(?i)decided: 2026-03-03 14:13")
                .containsPattern("(?i)handed over: 2026-03-03 16:02");
    }

    @Test
    void thePageIsSelfContainedHtmlToo() {
        String html = summary("referred", "html").out();

        assertThat(html)
                .contains("<!DOCTYPE html>", "Bleeding is not controlled: refer now with the balloon in place")
                .contains("not a medical device")
                .doesNotContain(" th:", "http://", "<script");
    }

    private CommandRun summary(String name, String form) {
        return CommandRun.of("summary", "--in", Samples.file(name, folder).toString(), "--as", form);
    }
}
