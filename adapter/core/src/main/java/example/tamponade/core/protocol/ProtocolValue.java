package example.tamponade.core.protocol;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * One value of the care protocol.
 *
 * @param setting which value
 * @param value the number, in the setting's unit
 * @param source the publication it comes from, or {@code common practice, no source}
 * @param note what a reader should know; absent when nothing
 */
public record ProtocolValue(
        Setting setting,
        BigDecimal value,
        String source,
        @Nullable String note) {}
