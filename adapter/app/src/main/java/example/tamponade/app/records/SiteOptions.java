package example.tamponade.app.records;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** What a site adds to the resources, on the command line. */
public final class SiteOptions {

    @Option(
            names = "--package",
            arity = "1..*",
            paramLabel = "FILE",
            description = "The site's FHIR R4 packages (.tgz): resources are held to them too.")
    private List<Path> packages = List.of();

    @Option(
            names = "--adaptation",
            paramLabel = "FILE",
            description =
                    "The site's adaptation file (YAML): which of their profiles resources claim, and what is added.")
    private @Nullable Path adaptation;

    /** The packages. */
    public List<Path> packages() {
        return packages;
    }

    /** The adaptation file; null: nothing is added. */
    public @Nullable Path adaptation() {
        return adaptation;
    }
}
