package example.tamponade.conformance;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveOutputStream;
import org.apache.commons.compress.compressors.gzip.GzipCompressorOutputStream;
import org.hl7.fhir.r4.model.ElementDefinition;
import org.hl7.fhir.r4.model.StructureDefinition;

/** A FHIR package of one profile: a person whose birth date and family name are known. */
final class InventedPackage {

    static final String PROFILE = "https://invented.example/fhir/StructureDefinition/known-person";

    private static final FhirContext FHIR = FhirContext.forR4Cached();
    private static final String MANIFEST = """
            {"name": "invented.example", "version": "0.1.0", "canonical": "https://invented.example/fhir",
             "fhirVersions": ["4.0.1"], "dependencies": {"hl7.fhir.r4.core": "4.0.1"}}
            """;

    private InventedPackage() {}

    /** The profile, on FHIR's own definition of a patient. */
    static StructureDefinition profile() {
        StructureDefinition profile = ((StructureDefinition) new DefaultProfileValidationSupport(FHIR)
                        .fetchStructureDefinition("http://hl7.org/fhir/StructureDefinition/Patient"))
                .copy();
        profile.setId("known-person");
        profile.setUrl(PROFILE);
        profile.setVersion("0.1.0");
        profile.setDerivation(StructureDefinition.TypeDerivationRule.CONSTRAINT);
        profile.setBaseDefinition("http://hl7.org/fhir/StructureDefinition/Patient");
        element(profile, "Patient.birthDate").setMin(1);
        element(profile, "Patient.name").setMin(1).setMax("1");
        return profile;
    }

    static ElementDefinition element(StructureDefinition profile, String id) {
        return profile.getSnapshot().getElement().stream()
                .filter(it -> it.getId().equals(id))
                .findFirst()
                .orElseThrow();
    }

    /** A package that holds the profile. */
    static InputStream of(StructureDefinition profile) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (TarArchiveOutputStream tar = new TarArchiveOutputStream(new GzipCompressorOutputStream(bytes))) {
            add(tar, "package/package.json", MANIFEST);
            add(
                    tar,
                    "package/StructureDefinition-known-person.json",
                    FHIR.newJsonParser().encodeResourceToString(profile));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return new ByteArrayInputStream(bytes.toByteArray());
    }

    private static void add(TarArchiveOutputStream tar, String name, String text) throws IOException {
        byte[] content = text.getBytes(StandardCharsets.UTF_8);
        TarArchiveEntry entry = new TarArchiveEntry(name);
        entry.setSize(content.length);
        tar.putArchiveEntry(entry);
        tar.write(content);
        tar.closeArchiveEntry();
    }
}
