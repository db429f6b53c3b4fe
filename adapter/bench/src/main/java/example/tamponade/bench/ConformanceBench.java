package example.tamponade.bench;

import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.projection.CaseProjection;
import example.tamponade.app.record.MemoryRecord;
import example.tamponade.app.records.RecordParts;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.conformance.Conformance;
import example.tamponade.fhir.conformance.ConformanceReport;
import example.tamponade.fhir.conformance.ResourceText;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** How long does the check of one resource of a sample case take, alone and among a hundred? */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 4, time = 5)
@Measurement(iterations = 3, time = 5)
@Fork(1)
public class ConformanceBench {

    private static final int TOGETHER = 100;
    private static final String CASE = "case/fernglade-hp/FGL-2026-0117";

    /** What checks: the compiled profiles or the validator library. */
    @Param({"compiled", "stock"})
    String checker = "compiled";

    private Conformance conformance;
    private List<ResourceText> resources;
    private int next;

    /** Maps the case. */
    @Setup(Level.Trial)
    public void map(OpenedIntake intake) throws IOException {
        conformance = checker.equals("stock") ? Conformance.stock() : Conformance.compiled();
        OpenedRecord record = new OpenedRecord(intake);
        intake.path()
                .take(
                        OpenedIntake.BENCH,
                        record.pieces(Files.readAllBytes(Path.of("../../samples/events/settled.jsonl"))));
        MemoryRecord memory = new MemoryRecord();
        new CaseProjection(RecordParts.shared())
                .whole(
                        CASE,
                        new Ledger(intake.database()).entries(CASE, 0, Long.MAX_VALUE),
                        CareProtocol.standard(),
                        memory);
        resources = memory.ofCase(CASE).stream().map(ResourceText::of).toList();
    }

    /** One resource alone. */
    @Benchmark
    public ConformanceReport alone() {
        return conformance.checkTexts(some(1));
    }

    /** One of a hundred. */
    @Benchmark
    @OperationsPerInvocation(TOGETHER)
    public ConformanceReport together() {
        return conformance.checkTexts(some(TOGETHER));
    }

    private List<ResourceText> some(int count) {
        int from = next + count > resources.size() ? 0 : next;
        next = from + count;
        return resources.subList(from, next);
    }
}
