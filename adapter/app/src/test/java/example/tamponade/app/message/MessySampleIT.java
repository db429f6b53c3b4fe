package example.tamponade.app.message;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.access.TestCaller;
import example.tamponade.app.ledger.Ledger;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The badly written messages of the samples are answered as their guide says. */
class MessySampleIT {

    // The guide's table: message, MSA-1, and of each ERR the place, the code of table 0357 and our reason.
    private static final List<String> EXPECTED = """
            - AR MSH^1 100 malformed-message
            M01 AA
            M02 AE OBX^1^6 103 wrong-unit
            M03 AE OBX^3^6 103 wrong-unit
            M04 AE OBX^2^3 103 unknown-property
            M05 AE OBR^1^25 103 not-supported, OBX^1^11 103 not-supported
            M06 AE OBR^1^4 103 unknown-type
            M07 AE OBR^1^7 102 time-without-offset, OBR^1^22 102 time-without-offset
            M08 AR MSH^1^9^1^1 200 not-supported
            M09 AR MSH^1^12 203 not-supported
            M10 AA OBX^3^11 0
            M11 AA
            M12 AE OBX^6^5 102 impossible-value
            M13 AE PV1^1^19 101 missing-property
            M14 AE 205 conflict
            M15 AE OBX^1^5 102 invalid-value
            M16 AA
            """.lines().toList();

    private static final Pattern ANSWER = Pattern.compile("MSA\\|(\\w\\w)(?:\\|([^\r]*))?");
    private static final Pattern ERROR = Pattern.compile("ERR\\|\\|([^|]*)\\|(\\d+)[^|]*\\|\\w(?:\\|([a-z-]*))?");

    @TempDir
    private Path data;

    @Test
    void isAnsweredAsTheGuideSays() throws IOException {
        try (TestPath server = TestPath.in(data)) {
            String answers = server.receiver()
                    .take(TestCaller.SENDER, new ByteArrayInputStream(Messages.sample("messy.hl7")))
                    .text();

            assertThat(Arrays.stream(answers.split("(?=MSH\\|)")).map(MessySampleIT::told))
                    .containsExactlyElementsOf(EXPECTED);
            // M01, M10, M11, the first of M12, and its withdrawal in M16.
            assertThat(server.bean(Ledger.class).entries("case/petrel-holm-ch/PTH-2026-0062", 0, 100))
                    .hasSize(5);
        }
    }

    private static String told(String answer) {
        Matcher msa = ANSWER.matcher(answer);
        assertThat(msa.find()).isTrue();
        String message = msa.group(2) == null || msa.group(2).isEmpty() ? "-" : msa.group(2);
        String errors = String.join(
                ", ",
                Stream.of(answer.split("\r"))
                        .map(ERROR::matcher)
                        .filter(Matcher::find)
                        .map(it -> (it.group(1) + " " + it.group(2) + " " + (it.group(3) == null ? "" : it.group(3)))
                                .strip())
                        .toList());
        return (message + " " + msa.group(1) + " " + errors).strip();
    }
}
