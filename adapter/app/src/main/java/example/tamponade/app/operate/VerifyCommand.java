package example.tamponade.app.operate;

import example.tamponade.app.ExitCodes;
import example.tamponade.app.chain.CommitChain;
import example.tamponade.app.database.Database;
import example.tamponade.app.database.DatabaseOptions;
import example.tamponade.app.keys.Signatures;
import example.tamponade.app.ledger.ChainCheck;
import example.tamponade.app.ledger.KeptEnd;
import example.tamponade.app.quarantine.QuarantineCheck;
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
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import tools.jackson.databind.json.JsonMapper;

/** {@code verify}: is the ledger as it was written? */
@Command(
        name = "verify",
        mixinStandardHelpOptions = true,
        sortOptions = false,
        description = {
            "Computes the chain of every case of the ledger and the chain of all commits anew, and names each event, case"
                    + " and refusal that was changed, left out, put in or moved since it was written. It reads one state,"
                    + " beside a running server too, and changes nothing.",
            "Whoever can write to the database can rewrite all chains. Keep the ends of the cases elsewhere"
                    + " (--keep) and check against them later (--against), or write the digest of everything down; that"
                    + " shows it. With a key that is not on this machine (--sign-with, --signed-by), where they are kept"
                    + " need not be trusted either."
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
            description =
                    "Writes the end of each case and of the chain of commits to this file, one JSON object a line.")
    private @Nullable Path keep;

    @Option(
            names = "--sign-with",
            paramLabel = "KEY",
            description = "Signs what --keep writes with this Ed25519 private key (PKCS #8, PEM), into FILE.sig.")
    private @Nullable Path signWith;

    @Option(
            names = "--against",
            paramLabel = "FILE",
            description = "Checks that the ends in this file are still in their chains.")
    private @Nullable Path against;

    @Option(
            names = "--signed-by",
            paramLabel = "KEY",
            description =
                    "Checks first that FILE.sig is the signature of --against FILE by this Ed25519 public key (PEM).")
    private @Nullable Path signedBy;

    private long entries;
    private CommitChain.@Nullable Commit root;
    private CommitChain.@Nullable Commit lastAccess;

    @Spec
    private @Nullable CommandSpec spec;

    @Override
    public Integer call() throws IOException {
        checkOptions();
        PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
        Map<String, List<KeptEnd>> kept = keptBefore().stream().collect(Collectors.groupingBy(KeptEnd::caseKey));
        List<KeptEnd> ends = new ArrayList<>();
        List<String> faults = new ArrayList<>();
        try (Database open = Database.openToRead(database.settings())) {
            // One transaction sees one state, whatever is written beside it.
            open.transactions().executeWithoutResult(status -> check(open, kept, ends, faults));
        }
        writeEnds(ends);
        faults.forEach(out::println);
        List<KeptEnd> now =
                ends.stream().filter(it -> !ChainCheck.isFormer(it.caseKey())).toList();
        out.println(now.stream().mapToLong(KeptEnd::caseSeq).sum() + " events of " + now.size()
                + " cases and facilities checked, and " + entries + " entries of quarantine, " + faults.size()
                + " faults");
        CommitChain.Commit end = Objects.requireNonNull(root);
        out.println(Objects.requireNonNull(lastAccess).number() + " entries of the access log checked");
        out.println("everything up to commit " + end.number() + " has the digest " + end.link());
        out.flush();
        return faults.isEmpty() ? ExitCodes.ALL_WELL : ExitCodes.SOME_REFUSED;
    }

    private void check(Database open, Map<String, List<KeptEnd>> kept, List<KeptEnd> ends, List<String> faults) {
        ChainCheck check = new ChainCheck(open);
        TreeSet<String> keys = new TreeSet<>(check.caseKeys());
        keys.addAll(kept.keySet());
        keys.remove(KeptEnd.COMMITS);
        keys.remove(KeptEnd.ACCESS);
        for (String key : keys) {
            ChainCheck.Result result = check.check(key, kept.getOrDefault(key, List.of()));
            ends.add(result.end());
            result.faults().forEach(it -> faults.add(it.toString()));
        }
        faults.addAll(check.checkCommits(kept.getOrDefault(KeptEnd.COMMITS, List.of())));
        faults.addAll(check.checkAccess(kept.getOrDefault(KeptEnd.ACCESS, List.of())));
        QuarantineCheck.Result quarantine = new QuarantineCheck(open).check();
        faults.addAll(quarantine.faults());
        entries = quarantine.entries();
        root = new CommitChain(open).end();
        lastAccess = CommitChain.ofAccess(open).end();
    }

    private void checkOptions() {
        CommandLine command = Objects.requireNonNull(spec).commandLine();
        if (signWith != null && keep == null) {
            throw new ParameterException(command, "--sign-with signs what --keep writes: give --keep FILE too");
        }
        if (signedBy != null && against == null) {
            throw new ParameterException(command, "--signed-by checks the file of --against: give --against FILE too");
        }
    }

    private List<KeptEnd> keptBefore() throws IOException {
        if (against == null) {
            return List.of();
        }
        if (signedBy != null) {
            Signatures.check(against, signedBy);
        }
        List<KeptEnd> kept = new ArrayList<>();
        for (String line : Files.readAllLines(against)) {
            kept.add(MAPPER.readValue(line, KeptEnd.class));
        }
        return kept;
    }

    private void writeEnds(List<KeptEnd> ends) throws IOException {
        if (keep != null) {
            List<KeptEnd> all = new ArrayList<>(ends);
            all.add(KeptEnd.of(Objects.requireNonNull(root)));
            all.add(KeptEnd.ofAccess(Objects.requireNonNull(lastAccess)));
            Files.write(keep, all.stream().map(MAPPER::writeValueAsString).toList());
        }
        if (keep != null && signWith != null) {
            Signatures.sign(keep, signWith);
        }
    }
}
