package example.tamponade.conformance;

import example.tamponade.conformance.compile.PackageCompiler;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** Compiles the profiles of a FHIR R4 package, so that resources can be checked without reading them again. */
public final class ProfileCompiler {

    private ProfileCompiler() {}

    /**
     * Compiles a FHIR NPM package, a gzipped tar file whose profiles have snapshots.
     *
     * @throws IOException when it is not readable as one
     * @throws UnknownConstructException when a profile uses what cannot be compiled
     */
    public static CompiledProfiles compile(InputStream tgz) throws IOException {
        return compile(List.of(tgz));
    }

    /**
     * Compiles FHIR NPM packages together; what the first calls its own is held to strictly.
     *
     * @throws IOException when one is not readable as such
     * @throws UnknownConstructException when a profile uses what cannot be compiled
     */
    public static CompiledProfiles compile(List<InputStream> packages) throws IOException {
        return new CompiledProfiles(PackageCompiler.compile(packages));
    }

    /** Arguments: the package, the file to write the compiled profiles to. */
    public static void main(String[] arguments) throws IOException {
        Path target = Path.of(arguments[1]);
        Files.createDirectories(target.toAbsolutePath().getParent());
        try (InputStream tgz = Files.newInputStream(Path.of(arguments[0]));
                OutputStream out = Files.newOutputStream(target)) {
            compile(tgz).write(out);
        }
    }
}
