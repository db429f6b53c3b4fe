package example.tamponade.app.records;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.CommandRun;
import example.tamponade.app.Samples;
import example.tamponade.app.crash.Waiting;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.serve.RunningServer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.MedicationAdministration;
import org.hl7.fhir.r4.model.Organization;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A site's own package and adaptation file, as the guide of the samples shows them. */
class SiteIT {

    private static final Path SITE = Path.of("../../samples/site");
    private static final String NOWHERE = "https://health.nowhere.example/";
    private static final String PATIENT = NOWHERE + "fhir/StructureDefinition/nowhere-patient";

    @TempDir
    private Path folder;

    private Path packed;

    @BeforeEach
    void pack() throws Exception {
        packed = packed(SITE);
    }

    private Path packed(Path site) throws Exception {
        Path tgz = Files.createTempFile(folder, "nowhere", ".tgz");
        assertThat(new ProcessBuilder("tar", "-czf", tgz.toString(), "-C", site.toString(), "package")
                        .start()
                        .waitFor())
                .isZero();
        return tgz;
    }

    @Test
    void whatIsWrittenFitsTheSitesPackageToo() {
        CommandRun conversion = convert(SITE.resolve("adaptation.yaml"), packed);

        assertThat(conversion.code()).as(conversion.err()).isZero();
        Patient mother = one(Patient.class);
        assertThat(mother.getMeta().hasProfile(PATIENT)).isTrue();
        assertThat(mother.getIdentifierFirstRep().getSystem()).isEqualTo(NOWHERE + "id/ward-number");
        assertThat(mother.getExtensionByUrl(NOWHERE + "fhir/StructureDefinition/reporting-area")
                        .getValue()
                        .primitiveValue())
                .isEqualTo("N4");
        assertThat(all(MedicationAdministration.class)
                        .filter(it -> it.getMeta().hasProfile(NOWHERE + "fhir/StructureDefinition/nowhere-transfusion"))
                        .map(it -> it.getMedicationCodeableConcept().getCoding()))
                .isNotEmpty()
                .allSatisfy(it -> assertThat(it.stream().map(Coding::getSystem).toList())
                        .containsSubsequence(
                                NOWHERE + "fhir/CodeSystem/blood-unit",
                                "https://tamponade-adapter.example/fhir/CodeSystem/blood-product"));
        assertThat(all(Organization.class)
                        .flatMap(it -> it.getIdentifier().stream())
                        .filter(it -> NOWHERE.concat("id/organization").equals(it.getSystem())))
                .isNotEmpty()
                .allSatisfy(it -> assertThat(it.getValue()).isEqualTo("OR-0417"));

        CommandRun check = CommandRun.of("check", folder.resolve("out").toString(), "--package", packed.toString());
        assertThat(check.code()).as(check.err()).isZero();
    }

    // The sender's number keeps its name then, and hers there is missing.
    @Test
    void whatTheSiteRefusesIsWrittenWithoutItsProfileAndSaidWithTheLines() throws IOException {
        List<String> lines = new ArrayList<>(Files.readAllLines(SITE.resolve("adaptation.yaml")));
        int rule = lines.indexOf("identifier-systems:");
        lines.set(rule + 1, "  - sent: urn:example:another-register");
        Path adaptation = Files.write(folder.resolve("without.yaml"), lines);

        CommandRun conversion = convert(adaptation, packed);

        assertThat(conversion.code()).isEqualTo(2);
        assertThat(conversion.err())
                .contains(
                        "Patient.identifier",
                        PATIENT,
                        "line " + (rule + 2) + ",",
                        "line 5, which claims",
                        "of without.yaml");
        Patient mother = one(Patient.class);
        assertThat(mother.getMeta().hasProfile(PATIENT)).isFalse();
        assertThat(mother.getIdentifierFirstRep().getSystem()).isEqualTo("urn:example:marrowby:ward-register");
        assertThat(CommandRun.of("check", folder.resolve("out").toString()).code())
                .isEqualTo(2);
        assertThat(CommandRun.of("check", folder.resolve("out").toString(), "--package", packed.toString())
                        .code())
                .isZero();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    nowhere-patient                | no-such-patient | line 5: profiles: no package has the profile
                    resource: Patient              | resource: Father | line 5: profiles: 'Father' is neither a resource type
                    resource: blood-product-given  | resource: Observation | line 7: profiles: .* is a profile of MedicationAdministration, not of Observation
                    type: Location                 | type: Ward      | line 21: facilities: has no type 'Ward'; use Organization or Location
                    ConceptMap/blood-unit          | ConceptMap/none | line 28: concept-maps: no package has the concept map
                    value-type: code               | value-type: number | line 32: extensions: has no value-type 'number'; use one of
                    site: https://health.nowhere.example/id/ward-number | site: urn:example:marrowby:ward-register | line 12: .* is the name of a sender's system too
                    value: N4                      | worth: N4       | line 35: extensions.worth is not known here
                    """)
    void aFileWithAMistakeIsRefusedWithTheLine(String right, String wrong, String problem) throws IOException {
        String text = Files.readString(SITE.resolve("adaptation.yaml"));
        int place = text.indexOf(right);
        Path adaptation = Files.writeString(
                folder.resolve("wrong.yaml"),
                text.substring(0, place) + wrong + text.substring(place + right.length()));

        CommandRun conversion = convert(adaptation, packed);

        assertThat(conversion.code()).isEqualTo(1);
        assertThat(conversion.err()).contains("wrong.yaml cannot be used").containsPattern(problem);
    }

    @Test
    void whatIsNoPackageIsRefused() throws IOException {
        Path text = Files.writeString(folder.resolve("text.tgz"), "no package");

        CommandRun conversion = convert(SITE.resolve("adaptation.yaml"), text);

        assertThat(conversion.code()).isEqualTo(1);
        assertThat(conversion.err()).contains("text.tgz cannot be used", "not readable as a FHIR R4 package");
    }

    @Test
    void aProfileThatCannotBeCompiledIsJudgedByTheLibrary() throws Exception {
        Path site = folder.resolve("site");
        Files.createDirectories(site.resolve("package"));
        try (Stream<Path> files = Files.list(SITE.resolve("package"))) {
            for (Path file : files.toList()) {
                Files.copy(file, site.resolve("package").resolve(file.getFileName()));
            }
        }
        Path profile = site.resolve("package/StructureDefinition-nowhere-patient.json");
        String value = "\"path\": \"Patient.identifier.value\", \"min\": 1}";
        assertThat(Files.readString(profile)).contains(value);
        Files.writeString(
                profile,
                Files.readString(profile)
                        .replace(
                                value,
                                value
                                        + ", {\"id\": \"Patient.birthDate\", \"path\": \"Patient.birthDate\", \"minValueDate\": \"1900-01-01\"}"));

        CommandRun conversion = convert(SITE.resolve("adaptation.yaml"), packed(site));

        assertThat(conversion.code()).as(conversion.err()).isZero();
        assertThat(one(Patient.class).getMeta().hasProfile(PATIENT)).isTrue();
    }

    @Test
    void theServerPutsItOnRecord() throws IOException {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(
                        database,
                        "--tamponade.site.packages=" + packed,
                        "--tamponade.site.adaptation="
                                + SITE.resolve("adaptation.yaml")
                                        .toAbsolutePath()
                                        .normalize())) {
            server.post("application/x-ndjson", Samples.events("referred"));
            Waiting.until(
                    Duration.ofMinutes(1),
                    "the case is on record",
                    () -> server.get("/ledger").body().contains("\"casesBehind\":0"));

            Bundle found = FhirContext.forR4Cached()
                    .newJsonParser()
                    .parseResource(
                            Bundle.class,
                            server.get("/fhir/Patient?identifier=" + NOWHERE + "id/ward-number%7C0048%2F26")
                                    .body());
            assertThat(found.getEntry()).hasSize(1);
            assertThat(found.getEntryFirstRep().getResource().getMeta().hasProfile(PATIENT))
                    .isTrue();
        }
    }

    private CommandRun convert(Path adaptation, Path tgz) {
        return CommandRun.of(
                "convert",
                "--in",
                Samples.file("referred", folder).toString(),
                "--out",
                folder.resolve("out").toString(),
                "--package",
                tgz.toString(),
                "--adaptation",
                adaptation.toString());
    }

    private <T extends Resource> T one(Class<T> type) {
        return all(type).findFirst().orElseThrow();
    }

    private <T extends Resource> Stream<T> all(Class<T> type) {
        try (Stream<Path> files = Files.walk(folder.resolve("out"))) {
            List<String> lines = new ArrayList<>();
            for (Path file : files.filter(it -> it.endsWith(type.getSimpleName() + ".ndjson"))
                    .sorted(Comparator.naturalOrder())
                    .toList()) {
                lines.addAll(Files.readAllLines(file));
            }
            return lines.stream()
                    .map(it -> FhirContext.forR4Cached().newJsonParser().parseResource(type, it));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
