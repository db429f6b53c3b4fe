package example.tamponade.app.intake;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Samples;
import example.tamponade.core.protocol.CareProtocol;
import java.time.Clock;
import org.junit.jupiter.api.Test;

/** What a conversion takes is what the ledger would take. */
class TakenEventsTest {

    private static final String ID = "6f0d3c1e-5a44-4d0e-9a55-0f6f6ce1a201";

    @Test
    void correctsNothingOfAnotherCase() {
        String line = new String(Samples.events("settled"), UTF_8).split("\n")[8];
        String target = line.replaceFirst(".*?\"eventId\":\"([^\"]*)\".*", "$1");
        String correcting = line.replace(target, ID).replaceFirst("\\{", "{\"corrects\":\"" + target + "\",");
        TakenEvents events = new TakenEvents();

        assertThat(events.add(taken(line))).isNull();
        assertThat(events.add(taken(correcting.replace("FGL-2026-0117", "FGL-2026-0118"))))
                .isEqualTo(Reason.anotherCase());
        assertThat(events.add(taken(correcting))).isNull();
        assertThat(events.taken()).isEqualTo(2);
    }

    private static Intake.Taken taken(String line) {
        EventReader reader = new EventReader(CareProtocol.standard(), Clock.systemUTC());
        return (Intake.Taken) reader.read(Original.of(line.getBytes(UTF_8)));
    }
}
