package example.tamponade.app.summary;

import example.tamponade.app.ExitCodes;
import example.tamponade.app.formats.EventFiles;
import example.tamponade.app.formats.FacilityOptions;
import example.tamponade.app.formats.Formats;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.TakenEvents;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.CaseId;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.terms.Terms;
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
import picocli.CommandLine.Spec;

/** {@code summary}: files of events in, one page a case out. */
@Command(
        name = "summary",
        mixinStandardHelpOptions = true,
        sortOptions = false,
        description = {
            "Prints one page for each case in files of bedside events: times, totals, trends, warnings.",
            "It shows what was derived; local protocols and licensed judgement decide."
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:every line was read", "1:failure", "2:some lines were refused; convert tells why"})
public final class SummaryCommand implements Callable<Integer> {

    @Option(names = "--in", required = true, arity = "1..*", paramLabel = "FILE", description = "Files of events.")
    private List<Path> in = List.of();

    @Option(names = "--as", defaultValue = "text", paramLabel = "FORM", description = "text (the default) or html")
    private SummaryPage page = SummaryPage.TEXT;

    @Mixin
    private FacilityOptions facilities = new FacilityOptions();

    @Option(names = "--protocol", paramLabel = "FILE", description = "The facility's care protocol (YAML).")
    private @Nullable Path protocol;

    @Spec
    private @Nullable CommandSpec spec;

    @Override
    public Integer call() throws IOException {
        PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
        CareProtocol careProtocol = CareProtocol.of(protocol);
        RefusedCount refused = new RefusedCount();
        TakenEvents events =
                new EventFiles(new Formats(careProtocol, facilities.facilities(), Clock.systemUTC()), refused).read(in);
        SummaryBuilder builder = new SummaryBuilder(Terms.read());
        for (List<Intake.Taken> taken : events.byCase().values()) {
            CaseId caseId = taken.get(0).event().caseId();
            if (caseId != null) {
                out.println(page.of(builder.summary(
                        CaseFile.of(
                                caseId,
                                careProtocol,
                                taken.stream().map(Intake.Taken::event).toList()),
                        refused.count)));
            }
        }
        out.flush();
        spec.commandLine()
                .getErr()
                .println(refused.count + " refused"
                        + (refused.count == 0 ? "" : "; convert writes each with its reasons to refused.ndjson"));
        return refused.count == 0 ? ExitCodes.ALL_WELL : ExitCodes.SOME_REFUSED;
    }

    private static final class RefusedCount implements EventFiles.Watcher {

        private long count;

        @Override
        public void pieceRead() {
            // The page is short; there is no progress to tell.
        }

        @Override
        public void refused(Path file, @Nullable Piece piece, List<Reason> reasons) {
            count++;
        }
    }
}
