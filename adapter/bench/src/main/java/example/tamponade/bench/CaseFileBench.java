package example.tamponade.bench;

import example.tamponade.core.casefile.CaseChange;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.BalloonFilled;
import example.tamponade.core.event.BedsideEvent;
import example.tamponade.core.event.BleedingAmount;
import example.tamponade.core.event.BleedingChecked;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.CaseId;
import example.tamponade.core.event.Chamber;
import example.tamponade.core.event.DeviceKind;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.LossMethod;
import example.tamponade.core.event.LossReading;
import example.tamponade.core.event.Recorder;
import example.tamponade.core.event.StaffRole;
import example.tamponade.core.event.TamponadeDevice;
import example.tamponade.core.event.TamponadeInserted;
import example.tamponade.core.event.Urine;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.core.protocol.CareProtocol;
import java.math.BigDecimal;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
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

/** What does the next event of a case cost, in a short case and in a long one, and what does a late one cost? */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 5, time = 2)
@Measurement(iterations = 8, time = 2)
@Fork(1)
public class CaseFileBench {

    private static final OffsetDateTime BEGIN = OffsetDateTime.parse("2026-02-11T23:40:00+05:45");

    /** How many events the case has. */
    @Param({"100", "1000", "10000"})
    int events;

    private static final CaseId CASE = new CaseId("quillmere-bp", "bench");

    private CaseFile file = CaseFile.empty(CASE, CareProtocol.standard());
    private List<EventEnvelope> next = List.of();
    private EventEnvelope tenBack = event(0);

    /** Folds the case; a minute lies between its events. */
    @Setup
    public void fold() {
        file = CaseFile.empty(CASE, CareProtocol.standard());
        for (int i = 0; i < events; i++) {
            file = file.apply(event(i * 60)).after();
        }
        next = new ArrayList<>();
        for (int kind = 0; kind < 5; kind++) {
            next.add(event((events + kind) * 60));
        }
        tenBack = event((events - 10) * 60 + 30);
    }

    /** The next event, one of each of five kinds in turn; the time is that of five. */
    @Benchmark
    public List<CaseChange> nextFiveEvents() {
        return next.stream().map(file::apply).toList();
    }

    /** An event that comes when ten later ones are there already. */
    @Benchmark
    public CaseChange lateByTenEvents() {
        return file.apply(tenBack);
    }

    private static EventEnvelope event(int seconds) {
        OffsetDateTime at = BEGIN.plusSeconds(seconds);
        return new EventEnvelope(
                new UUID(7, seconds),
                CASE,
                "quillmere-bp",
                at,
                at.plusMinutes(1),
                new Recorder("qm-01", StaffRole.MIDWIFE),
                null,
                null,
                null,
                data(seconds, at));
    }

    private static BedsideEvent data(int seconds, OffsetDateTime at) {
        if (seconds == 0) {
            return new TamponadeInserted(
                    new TamponadeDevice(DeviceKind.PURPOSE_MADE_BALLOON, null, null, null), null, true);
        }
        BigDecimal one = BigDecimal.ONE;
        return switch (seconds / 60 % 5) {
            case 0 -> vitals(seconds);
            case 1 -> new BloodLoss(LossMethod.VISUAL, LossReading.INCREMENT, null, one, null, null, null, null);
            case 2 -> new BleedingChecked(BleedingAmount.LIGHT, null);
            case 3 -> new Urine(BigDecimal.valueOf(60), at.minusMinutes(5), at);
            default -> new BalloonFilled(Chamber.TAMPONADE, one, null);
        };
    }

    private static VitalSigns vitals(int seconds) {
        return new VitalSigns(
                BigDecimal.valueOf(80 + seconds % 7),
                BigDecimal.valueOf(110),
                BigDecimal.valueOf(70),
                null,
                null,
                null,
                null,
                null);
    }
}
