package example.tamponade.core.casefile;

import example.tamponade.core.derivation.InfusionVolume;
import example.tamponade.core.event.Infusion;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.UUID;

/**
 * An infusion as it was last recorded.
 *
 * @param infusion what was recorded
 * @param event the event that recorded it
 * @param countedTo until when its volume is counted
 * @param leftMl what the bag still holds then, mL
 * @param begun whether anything of this bag was let run
 */
record RunningInfusion(Infusion infusion, UUID event, OffsetDateTime countedTo, BigDecimal leftMl, boolean begun) {

    /** What it runs in up to that time beyond what is counted, mL; never more than the bag holds. */
    BigDecimal runsInTo(OffsetDateTime time) {
        Duration ran = Duration.between(countedTo, time);
        return InfusionVolume.of(infusion.rateMlPerHour(), ran).value().min(leftMl);
    }

    /** The same infusion, counted to a later time. */
    RunningInfusion countedTo(OffsetDateTime time, BigDecimal ranMl) {
        return new RunningInfusion(infusion, event, time, leftMl.subtract(ranMl), begun);
    }

    /** The same line as it is recorded anew; what a bag has lost stays lost, whatever its rate becomes. */
    RunningInfusion recordedAnew(Infusion now, UUID by, OffsetDateTime at) {
        boolean sameBag = now.bag() == infusion.bag();
        return new RunningInfusion(
                now,
                by,
                at,
                sameBag ? leftMl.min(now.bagVolumeMl()) : now.bagVolumeMl(),
                now.runs() || sameBag && begun);
    }

    static RunningInfusion first(Infusion infusion, UUID event, OffsetDateTime at) {
        return new RunningInfusion(infusion, event, at, infusion.bagVolumeMl(), infusion.runs());
    }
}
