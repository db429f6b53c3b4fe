package example.tamponade.core.event;

import java.math.BigDecimal;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * The device that was inserted.
 *
 * @param kind the kind of device
 * @param lot lot number
 * @param expiry last day of use
 * @param capacityMl the most the tamponade chamber may hold, mL
 */
public record TamponadeDevice(
        DeviceKind kind,
        @Nullable String lot,
        @Nullable LocalDate expiry,
        @Nullable BigDecimal capacityMl) {}
