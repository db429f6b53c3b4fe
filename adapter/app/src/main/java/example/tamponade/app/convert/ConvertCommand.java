package example.tamponade.app.convert;

import example.tamponade.app.ExitCodes;
import example.tamponade.app.formats.FacilityOptions;
import example.tamponade.app.keys.KeyFile;
import example.tamponade.app.keys.PseudonymFile;
import example.tamponade.app.records.RecordParts;
import example.tamponade.app.records.SiteOptions;
import example.tamponade.app.records.SiteProblems;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.bundle.CaseView;
import example.tamponade.fhir.pseudonym.Pseudonymiser;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code convert}: files of events in, files of FHIR out. */
@Command(
        name = "convert",
        mixinStandardHelpOptions = true,
        sortOptions = false,
        description = {
            "Converts files of bedside events into FHIR R4; the end of a file's name tells its format.",
            "Writes the resources of each case below the output folder, and refused.ndjson with every line that"
                    + " could not be taken, why, and what to do."
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:everything was converted",
            "1:failure",
            "2:something was refused; see refused.ndjson, or what is printed of the site's package"
        })
public final class ConvertCommand implements Callable<Integer> {

    @Option(
            names = "--in",
            required = true,
            arity = "1..*",
            paramLabel = "FILE",
            description = "Files of events; several may hold events of one case.")
    private List<Path> in = List.of();

    @Option(names = "--out", required = true, paramLabel = "DIR", description = "The folder to write to.")
    private Path out = Path.of("");

    @Option(
            names = "--as",
            defaultValue = "ndjson",
            paramLabel = "FORM",
            description = {
                "ndjson: one file a resource type (the default)",
                "transaction: one Bundle a case that a FHIR server can take",
                "document: one Bundle a case to read and to hand on",
                "page: the same as a page for a browser or for print",
                "pdf: the same on A4"
            })
    private OutputForm form = OutputForm.NDJSON;

    @Option(
            names = "--view",
            defaultValue = "full",
            paramLabel = "VIEW",
            description = {
                "full: everything (the default)",
                "course: what was recorded, and the derived values at each change of state and on the hour",
                "handover: what the next team has to know"
            })
    private CaseView view = CaseView.FULL;

    @Option(
            names = "--against",
            paramLabel = "DIR",
            description =
                    "What an earlier conversion of these cases wrote: what of it holds no more is written again as"
                            + " entered in error.")
    private @Nullable Path against;

    @Option(
            names = "--pseudonyms",
            paramLabel = "KEY",
            description = {
                "A file with at least 32 random bytes, as openssl rand -out KEY 32 makes it: cases are written without"
                        + " what tells whose they are, and what is refused is kept in DIR-refused, which is not for"
                        + " others."
            })
    private @Nullable Path pseudonyms;

    @Option(
            names = "--sign-with",
            paramLabel = "KEYS",
            description =
                    "Signs each Bundle with the first key of this file, as keys add makes it: a detached JWS over its"
                            + " canonical JSON, in FILE.jws.")
    private @Nullable Path signWith;

    @Mixin
    private SiteOptions site = new SiteOptions();

    @Mixin
    private FacilityOptions facilities = new FacilityOptions();

    @Option(
            names = "--protocol",
            paramLabel = "FILE",
            description = "The facility's care protocol (YAML); without it the one that comes with the adapter.")
    private @Nullable Path protocol;

    @Spec
    private @Nullable CommandSpec spec;

    @Override
    public Integer call() throws IOException {
        PrintWriter err = Objects.requireNonNull(spec).commandLine().getErr();
        SiteProblems problems = new SiteProblems(it -> {});
        CaseConversion conversion = new CaseConversion(
                RecordParts.of(site.packages(), site.adaptation(), null, problems),
                CareProtocol.of(protocol),
                facilities.facilities(),
                Clock.systemUTC(),
                new Progress(err));
        OutputShape shape = new OutputShape(
                form, view, pseudonymiser(), keys(), against == null ? null : new FormerOutput(against));
        ConversionSummary summary = conversion.convert(in, out, shape);
        err.println(summary.inWords(out, shape.refusedIn(out)));
        problems.inWords().forEach(it -> err.println("the site's package refuses: " + it));
        err.flush();
        return summary.refused() > 0 || !problems.inWords().isEmpty() ? ExitCodes.SOME_REFUSED : ExitCodes.ALL_WELL;
    }

    private @Nullable KeyFile keys() {
        if (signWith != null && form != OutputForm.DOCUMENT && form != OutputForm.TRANSACTION) {
            throw new ParameterException(
                    Objects.requireNonNull(spec).commandLine(),
                    "--sign-with signs Bundles: give --as document or --as transaction too");
        }
        return signWith == null ? null : new KeyFile(signWith);
    }

    private @Nullable Pseudonymiser pseudonymiser() throws IOException {
        if (pseudonyms != null && against != null) {
            throw new ParameterException(
                    Objects.requireNonNull(spec).commandLine(),
                    "--against and --pseudonyms do not go together: what was written before has other names; convert"
                            + " everything anew into an empty folder");
        }
        return pseudonyms == null ? null : RecordParts.shared().bundles().pseudonymiser(PseudonymFile.key(pseudonyms));
    }
}
