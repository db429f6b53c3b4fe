package example.tamponade.fhir.conformance;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.IValidationSupport;
import example.tamponade.conformance.CompiledProfiles;
import example.tamponade.conformance.ProfileCompiler;
import example.tamponade.profiles.RecordPackage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Objects;
import org.hl7.fhir.common.hapi.validation.support.PrePopulatedValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.SnapshotGeneratingValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.r4.model.MetadataResource;
import org.hl7.fhir.utilities.npm.NpmPackage;
import org.jspecify.annotations.Nullable;

/** The published package together with others. */
final class CompiledPackages {

    private static final List<String> TYPES = List.of("StructureDefinition", "ValueSet", "CodeSystem");

    private CompiledPackages() {}

    /**
     * Compiles them, or reads what was compiled of the same before.
     *
     * @param cache a folder where the outcome is kept; null: it is made anew
     */
    static CompiledProfiles of(List<byte[]> packages, @Nullable Path cache) throws IOException {
        byte[] published = published();
        if (cache == null) {
            return compile(published, packages);
        }
        Path file = cache.resolve("compiled-profiles-" + digest(published, packages) + ".bin");
        if (!Files.exists(file)) {
            Path part = Files.createTempFile(Files.createDirectories(cache), "compiled-profiles", ".part");
            try (OutputStream out = Files.newOutputStream(part)) {
                compile(published, packages).write(out);
            }
            Files.move(part, file, StandardCopyOption.ATOMIC_MOVE);
        }
        try (InputStream in = Files.newInputStream(file)) {
            return CompiledProfiles.read(in);
        }
    }

    private static CompiledProfiles compile(byte[] published, List<byte[]> packages) throws IOException {
        List<InputStream> all = new ArrayList<>();
        all.add(new ByteArrayInputStream(published));
        packages.forEach(it -> all.add(new ByteArrayInputStream(it)));
        return ProfileCompiler.compile(all);
    }

    private static byte[] published() throws IOException {
        String location = RecordPackage.LOCATION.replace("classpath:", "/");
        try (InputStream in = RecordPackage.class.getResourceAsStream(location)) {
            return Objects.requireNonNull(in, location).readAllBytes();
        }
    }

    private static String digest(byte[] published, List<byte[]> packages) {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            digest.update(published);
            packages.forEach(digest::update);
            return HexFormat.of().formatHex(digest.digest(), 0, 16);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every JDK has SHA-256", e);
        }
    }

    /** What the stock validator needs to judge by them. */
    static IValidationSupport support(FhirContext fhir, List<byte[]> packages) throws IOException {
        PrePopulatedValidationSupport others = new PrePopulatedValidationSupport(fhir);
        ValidationSupportChain chain = new ValidationSupportChain(
                others, RecordPackage.support(fhir), new SnapshotGeneratingValidationSupport(fhir));
        chain.setCodeableConceptValidationSuccessfulIfNotAllCodingsAreValid(true);
        for (byte[] tgz : packages) {
            NpmPackage npm = NpmPackage.fromPackage(new ByteArrayInputStream(tgz));
            for (String type : TYPES) {
                for (String name : npm.listResources(type)) {
                    String json = new String(npm.loadResource(name).readAllBytes(), StandardCharsets.UTF_8);
                    MetadataResource resource =
                            (MetadataResource) fhir.newJsonParser().parseResource(json);
                    others.addResource(resource);
                }
            }
        }
        return chain;
    }
}
