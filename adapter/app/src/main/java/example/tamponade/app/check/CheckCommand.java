package example.tamponade.app.check;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.ExitCodes;
import example.tamponade.app.keys.BundleSignatures;
import example.tamponade.fhir.conformance.Conformance;
import example.tamponade.fhir.conformance.ConformanceReport;
import example.tamponade.fhir.site.SitePackages;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.MalformedInputException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code check}: FHIR files in, an OperationOutcome for each out. */
@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description = {
            "Validates FHIR R4 files (.json, .ndjson) against the profiles of this project.",
            "Prints one OperationOutcome a file on standard output; of a folder every such file in it is checked.",
            "The stock validator of the FHIR library judges, or the compiled profiles that this adapter holds its own"
                    + " output to."
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:no file has an error", "1:failure", "2:some file has an error"})
public final class CheckCommand implements Callable<Integer> {

    @Parameters(arity = "1..*", paramLabel = "FILE", description = "Files or folders to check.")
    private List<Path> files = List.of();

    @Option(
            names = "--with",
            paramLabel = "VALIDATOR",
            defaultValue = "stock",
            description = "stock (the default) or compiled")
    private Validator validator = Validator.STOCK;

    @Option(
            names = "--signed-by",
            paramLabel = "KEYS",
            description =
                    "Checks that FILE.jws is the signature of each file by one of these public keys, as the adapter"
                            + " publishes them at /.well-known/jwks.json.")
    private @Nullable Path signedBy;

    @Option(
            names = "--package",
            arity = "1..*",
            paramLabel = "FILE",
            description = "The site's FHIR R4 packages (.tgz), to judge by them too, by the compiled profiles.")
    private List<Path> packages = List.of();

    @Spec
    private @Nullable CommandSpec spec;

    @Override
    public Integer call() throws IOException {
        PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
        PrintWriter err = spec.commandLine().getErr();
        Conformance conformance = packages.isEmpty()
                ? validator.conformance()
                : SitePackages.read(packages).conformance(null);
        int wrong = 0;
        List<Path> all = all();
        for (Path file : all) {
            ConformanceReport report = conformance.check(text(file));
            String unsigned = signedBy == null ? "" : BundleSignatures.problem(file, signedBy);
            out.println(
                    FhirContext.forR4Cached().newJsonParser().encodeResourceToString(outcome(file, report, unsigned)));
            wrong += report.passed() && unsigned.isEmpty() ? 0 : 1;
            err.println(file + ": " + report.errors().size() + " errors, "
                    + report.warnings().size() + " warnings" + (unsigned.isEmpty() ? "" : "; " + unsigned));
        }
        out.flush();
        err.println(all.size() + " files checked, " + wrong + " with errors");
        err.flush();
        return wrong == 0 ? ExitCodes.ALL_WELL : ExitCodes.SOME_REFUSED;
    }

    private enum Validator {
        STOCK,
        COMPILED;

        private Conformance conformance() {
            return this == STOCK ? Conformance.stock() : Conformance.compiled();
        }
    }

    private List<Path> all() throws IOException {
        List<Path> all = new ArrayList<>();
        for (Path file : files) {
            try (Stream<Path> below = Files.walk(file)) {
                below.filter(Files::isRegularFile)
                        .filter(it -> it.equals(file) || isFhir(it))
                        .sorted()
                        .forEach(all::add);
            }
        }
        return all;
    }

    private static boolean isFhir(Path file) {
        String name = file.getFileName().toString();
        return name.endsWith(".json") || (name.endsWith(".ndjson") && !name.equals("refused.ndjson"));
    }

    private static String text(Path file) throws IOException {
        try {
            return Files.readString(file, StandardCharsets.UTF_8);
        } catch (MalformedInputException e) {
            throw new IOException(file + " is not UTF-8; save it as UTF-8", e);
        }
    }

    private static OperationOutcome outcome(Path file, ConformanceReport report, String unsigned) {
        OperationOutcome outcome = report.toOutcome();
        if (!unsigned.isEmpty()) {
            outcome.addIssue()
                    .setSeverity(OperationOutcome.IssueSeverity.ERROR)
                    .setCode(OperationOutcome.IssueType.SECURITY)
                    .setDiagnostics(unsigned);
        }
        outcome.setId(file.getFileName().toString().replaceAll("[^A-Za-z0-9.-]", "-"));
        return outcome;
    }
}
