package example.tamponade.app.operate;

import example.tamponade.app.ExitCodes;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.DatabaseOptions;
import example.tamponade.app.ledger.ChainCheck;
import example.tamponade.app.ledger.ChainFault;
import example.tamponade.app.ledger.KeptEnd;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tools.jackson.databind.json.JsonMapper;

/** {@code verify}: is the ledger as it was written? */
@Command(
        name = "verify",
        mixinStandardHelpOptions = true,
        sortOptions = false,
        description = {
            "Computes the chain of every case of the ledger anew and names each event that was changed, left out, put in"
                    + " or moved since it was written.",
            "Whoever can write to the database can rewrite a whole chain. Keep the ends of the cases elsewhere"
                    + " (--keep) and check against them later (--against); that shows it."
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:the ledger is as it was written", "1:failure", "2:it is not; the faults are printed"})
public final class VerifyCommand implements Callable<Integer> {

    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    @Mixin
    private DatabaseOptions database = new DatabaseOptions();

    @Option(
            names = "--keep",
            paramLabel = "FILE",
            description = "Writes the end of each case to this file, one JSON object a line.")
    private @Nullable Path keep;

    @Option(
            names = "--against",
            paramLabel = "FILE",
            description = "Checks that the ends in this file are still in their chains.")
    private @Nullable Path against;

    @Spec
    private @Nullable CommandSpec spec;

    @Override
    public Integer call() throws IOException {
        PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
        Map<String, List<KeptEnd>> kept = keptBefore().stream().collect(Collectors.groupingBy(KeptEnd::caseKey));
        List<KeptEnd> ends = new ArrayList<>();
        List<ChainFault> faults = new ArrayList<>();
        try (Database open = Database.open(database.settings())) {
            ChainCheck check = new ChainCheck(open);
            TreeSet<String> keys = new TreeSet<>(check.caseKeys());
            keys.addAll(kept.keySet());
            for (String key : keys) {
                ChainCheck.Result result = check.check(key, kept.getOrDefault(key, List.of()));
                ends.add(result.end());
                faults.addAll(result.faults());
                result.faults().forEach(out::println);
            }
        }
        writeEnds(ends);
        out.println(ends.stream().mapToLong(KeptEnd::caseSeq).sum() + " events of " + ends.size()
                + " cases and facilities checked, " + faults.size() + " faults");
        out.flush();
        return faults.isEmpty() ? ExitCodes.ALL_WELL : ExitCodes.SOME_REFUSED;
    }

    private List<KeptEnd> keptBefore() throws IOException {
        if (against == null) {
            return List.of();
        }
        List<KeptEnd> kept = new ArrayList<>();
        for (String line : Files.readAllLines(against)) {
            kept.add(MAPPER.readValue(line, KeptEnd.class));
        }
        return kept;
    }

    private void writeEnds(List<KeptEnd> ends) throws IOException {
        if (keep != null) {
            Files.write(keep, ends.stream().map(MAPPER::writeValueAsString).toList());
        }
    }
}
