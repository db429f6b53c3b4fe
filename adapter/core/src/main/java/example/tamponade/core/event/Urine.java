package example.tamponade.core.event;

import java.math.BigDecimal;
import java.time.OffsetDateTime;

/**
 * Urine was collected over a time.
 *
 * @param volumeMl volume, mL
 * @param from begin of the collection
 * @param to end of the collection
 */
public record Urine(BigDecimal volumeMl, OffsetDateTime from, OffsetDateTime to) implements BedsideEvent {}
