package example.tamponade.bench;

import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.CaseId;
import example.tamponade.core.protocol.CareProtocol;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** What does it cost after a restart to open one case: to read its events from the ledger and fold them? */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 2)
@Measurement(iterations = 5, time = 3)
@Fork(1)
public class OpenCaseBench {

    /** How many events the case has. */
    @Param({"250", "2500"})
    int events;

    private Ledger ledger;

    /** Takes the case. */
    @Setup
    public void take(OpenedIntake opened) throws IOException {
        ledger = new Ledger(opened.database());
        byte[] lines = new NewEvents(opened.seed(), 1).lines(events);
        try (Pieces pieces = opened.formats().of(InputFormat.EVENT).open(new ByteArrayInputStream(lines))) {
            opened.path().takeAll(OpenedIntake.BENCH, pieces, (piece, receipt) -> {});
        }
    }

    /** Opens it. */
    @Benchmark
    public CaseFile open() {
        return CaseFile.of(
                new CaseId("fernglade-hp", "BENCH-00"),
                CareProtocol.standard(),
                ledger.entries("case/fernglade-hp/BENCH-00", 0, Long.MAX_VALUE).stream()
                        .map(Ledger.Entry::event)
                        .toList());
    }
}
