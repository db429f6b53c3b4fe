package example.tamponade.core.event;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * One set of vital signs; at least one is there.
 *
 * @param pulse heart rate, /min
 * @param systolic systolic blood pressure, mm[Hg]
 * @param diastolic diastolic blood pressure, mm[Hg]
 * @param pressureUnrecordable true when a pressure was sought and could not be heard or felt
 * @param respirations respiratory rate, /min
 * @param oxygenSaturation oxygen saturation by pulse oximeter, %
 * @param temperatureC body temperature, Cel
 * @param consciousness level on the AVPU scale
 */
public record VitalSigns(
        @Nullable BigDecimal pulse,
        @Nullable BigDecimal systolic,
        @Nullable BigDecimal diastolic,
        @Nullable Boolean pressureUnrecordable,
        @Nullable BigDecimal respirations,
        @Nullable BigDecimal oxygenSaturation,
        @Nullable BigDecimal temperatureC,
        @Nullable Consciousness consciousness)
        implements BedsideEvent {}
