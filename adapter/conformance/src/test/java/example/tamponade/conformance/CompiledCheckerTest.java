package example.tamponade.conformance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.List;
import org.hl7.fhir.r4.model.ElementDefinition.DiscriminatorType;
import org.hl7.fhir.r4.model.ElementDefinition.SlicingRules;
import org.hl7.fhir.r4.model.StructureDefinition;
import org.junit.jupiter.api.Test;

/** What the specification says of a patient, and what a profile adds to it. */
class CompiledCheckerTest {

    private static final String SOUND = """
            {"resourceType": "Patient", "id": "p", "meta": {"profile": ["%s"]},
             "text": {"status": "generated", "div": "<div xmlns=\\"http://www.w3.org/1999/xhtml\\">Thessaly Quill</div>"},
             "name": [{"family": "Quill"}], "gender": "female", "birthDate": "1994-03-01"}
            """.formatted(InventedPackage.PROFILE);

    private final CompiledProfiles compiled = ProfileCompiler.compile(InventedPackage.of(InventedPackage.profile()));

    CompiledCheckerTest() throws IOException {}

    @Test
    void whatConformsHasNoFinding() {
        assertThat(new CompiledChecker(compiled).check(SOUND)).isEmpty();
    }

    @Test
    void whatTheProfileAddsIsAsked() {
        List<Finding> findings =
                new CompiledChecker(compiled).check(SOUND.replace(", \"birthDate\": \"1994-03-01\"", ""));
        assertThat(findings).singleElement().satisfies(it -> {
            assertThat(it.severity()).isEqualTo(Finding.Severity.ERROR);
            assertThat(it.resource()).isEqualTo("Patient/p");
            assertThat(it.message()).contains("Patient.birthDate", "minimum required = 1");
        });
    }

    // FHIR R4, Patient.gender: required binding to administrative-gender; date: YYYY-MM-DD of a day that there is.
    @Test
    void whatFhirItselfAsksIsAskedToo() {
        assertThat(new CompiledChecker(compiled).check(SOUND.replace("female", "lady")))
                .singleElement()
                .satisfies(it -> assertThat(it.expression()).isEqualTo("Patient.gender"));
        assertThat(new CompiledChecker(compiled).check(SOUND.replace("1994-03-01", "1994-02-30")))
                .singleElement()
                .satisfies(it -> assertThat(it.expression()).isEqualTo("Patient.birthDate"));
        assertThat(new CompiledChecker(compiled).check(SOUND.replace("\"gender\"", "\"gander\"")))
                .singleElement()
                .satisfies(it -> assertThat(it.message()).contains("gander"));
    }

    // RFC 3061: an OID has as many parts as it likes.
    @Test
    void aLongOidIsReadToItsEnd() {
        String identified = SOUND.replace(
                "\"gender\"", "\"identifier\": [{\"system\": \"urn:oid:1%s\", \"value\": \"7\"}], \"gender\"");

        assertThat(new CompiledChecker(compiled).check(identified.formatted(".20".repeat(100_000))))
                .isEmpty();
        assertThat(new CompiledChecker(compiled).check(identified.formatted(".20".repeat(100_000) + ".01")))
                .isNotEmpty();
    }

    @Test
    void whatIsKeptAndReadAgainChecksTheSame() throws IOException {
        ByteArrayOutputStream kept = new ByteArrayOutputStream();
        compiled.write(kept);
        CompiledChecker read = new CompiledChecker(CompiledProfiles.read(new ByteArrayInputStream(kept.toByteArray())));
        String broken = SOUND.replace("\"Quill\"}]", "\"Quill\"}, {\"family\": \"Other\"}]");
        assertThat(read.check(SOUND)).isEmpty();
        assertThat(read.check(broken)).isNotEmpty().isEqualTo(new CompiledChecker(compiled).check(broken));
    }

    @Test
    void aConstructThatIsNotKnownNamesProfileAndElement() {
        StructureDefinition profile = InventedPackage.profile();
        profile.getSnapshot()
                .getElement()
                .add(
                        profile.getSnapshot().getElement().indexOf(InventedPackage.element(profile, "Patient.contact"))
                                + 1,
                        InventedPackage.element(profile, "Patient.contact")
                                .copy()
                                .setSliceName("kin"));
        InventedPackage.element(profile, "Patient.contact")
                .getSlicing()
                .setRules(SlicingRules.OPEN)
                .addDiscriminator()
                .setType(DiscriminatorType.EXISTS)
                .setPath("relationship");
        UnknownConstructException unknown = assertThrows(
                UnknownConstructException.class, () -> ProfileCompiler.compile(InventedPackage.of(profile)));
        assertThat(unknown).hasMessageContaining(InventedPackage.PROFILE).hasMessageContaining("Patient.contact");
    }
}
