package example.tamponade.fhir.mapping;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.casefile.FactKey;
import example.tamponade.core.event.CaseId;
import example.tamponade.core.event.Recorder;
import example.tamponade.core.event.StaffRole;
import java.util.UUID;
import org.junit.jupiter.api.Test;

class IdsTest {

    private static final UUID EVENT = UUID.fromString("0a1b2c3d-4e5f-4a6b-8c7d-000000000001");

    private final Ids ids = new Ids("https://tamponade-adapter.example/fhir");

    // Computed with another implementation of RFC 9562, version 5:
    // uuid5(uuid5(NAMESPACE_URL, base), name) of the Python standard library.
    @Test
    void agreesWithAnotherImplementation() {
        assertThat(ids.of(EVENT, "pulse")).isEqualTo("363f5d26-0192-5481-858e-2e94a4293b90");
        assertThat(ids.of(new FactKey("case-flag", EVENT, "raised"))).isEqualTo("863969c9-e278-52be-8fb5-b39e709af372");
        assertThat(ids.ofCase(new CaseId("hollowbrook-hp", "INV-1"), "mother"))
                .isEqualTo("24ccd76a-92e3-527d-8b7e-0390c167c423");
    }

    @Test
    void aPartIsAnotherFact() {
        assertThat(ids.of(new FactKey("implausible-value", EVENT, "/data/pulse")))
                .isNotEqualTo(ids.of(new FactKey("implausible-value", EVENT, "/data/systolic")));
    }

    @Test
    void onePersonInTwoRolesIsTwoRecorders() {
        assertThat(ids.ofRecorder("here", new Recorder("p1", StaffRole.NURSE)))
                .isNotEqualTo(ids.ofRecorder("here", new Recorder("p1", StaffRole.MIDWIFE)));
    }
}
