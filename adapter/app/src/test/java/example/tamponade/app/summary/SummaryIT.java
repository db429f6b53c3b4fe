package example.tamponade.app.summary;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.CommandRun;
import example.tamponade.app.Samples;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
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
    void saysThatWhatWasRefusedIsNotHere() {
        assertThat(summary("messy", "text").out()).contains("Not on this page: ", "refused pieces of the input");
        assertThat(summary("messy", "html").out()).contains("Not on this page: ");
        assertThat(summary("settled", "text").out())
                .doesNotContain("Not on this page")
                .contains("Deflation not before: removed");
    }

    @Test
    void tellsEachStepOfAReferral() {
        assertThat(summary("referred", "text").out())
                .containsPattern("(?i)decided: 2026-03-03 14:13")
                .containsPattern("(?i)handed over: 2026-03-03 16:02");
    }

    @Test
    void whatIsAskedFirstComesFirstWithItsAge() {
        String page = summary("referred", "text").out();

        assertThat(page)
                .containsSubsequence(
                        "LAST READINGS",
                        "Pulse: ",
                        "min ago",
                        "Blood pressure: ",
                        "Bleeding: ",
                        "Balloon: 450.0 mL, in place since 2026-03-03 13:56  (out by 2026-03-04 13:56",
                        "WARNINGS THAT STAND",
                        "high: Bleeding goes on under the balloon",
                        "moderate: ",
                        "WORKED OUT",
                        "WARNINGS THAT ENDED")
                .contains("times in +03:00");
    }

    @Test
    void aReadingThatIsOldIsStaleAndABalloonThatIsOutHoldsNothing() throws IOException {
        String at = "2026-03-03T%s:00+03:00";
        Path file = folder.resolve("stale.jsonl");
        Files.write(
                file,
                List.of(
                        line(
                                1,
                                at.formatted("10:00"),
                                "haemorrhage-recognised",
                                "{\"criteria\":[\"volume\"],\"suspectedCause\":[\"tone\"]}"),
                        line(2, at.formatted("10:02"), "vital-signs", "{\"pulse\":140,\"pressureUnrecordable\":true}"),
                        line(
                                3,
                                at.formatted("10:05"),
                                "tamponade-inserted",
                                "{\"device\":{\"kind\":\"purpose-made-balloon\",\"capacityMl\":500},\"positionConfirmed\":true}"),
                        line(
                                4,
                                at.formatted("10:06"),
                                "balloon-filled",
                                "{\"chamber\":\"tamponade\",\"volumeMl\":300}"),
                        line(5, at.formatted("10:40"), "tamponade-removed", "{\"reason\":\"failed\"}"),
                        line(6, at.formatted("12:40"), "note", "{\"text\":\"asleep\"}")));
        CommandRun run = CommandRun.of("summary", "--in", file.toString(), "--as", "text");

        assertThat(run.code()).as(run.err()).isZero();
        assertThat(run.out())
                .contains("Blood pressure: not recordable  (2026-03-03 10:02, 2 h 38 min ago, stale)")
                .contains("Shock index: pressure not recordable, top band")
                .contains("Balloon: removed")
                .contains("stale (pressure not recordable, top band at 10:02)  removed");
    }

    private static String line(int number, String at, String type, String data) {
        return """
                {"eventId":"6f0d3c1e-5a44-4d0e-9a55-0f6f6ce1b00%d","caseId":"STALE-1","facilityId":"fernglade-hp",\
                "occurredAt":"%s","recordedAt":"%s","recordedBy":{"id":"fg-17","role":"midwife"},"type":"%s","data":%s}""".formatted(number, at, at, type, data);
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
