package example.tamponade.core.casefile;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.protocol.Band;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A value computed from what was recorded.
 *
 * @param key which fact it is
 * @param kind what it is about
 * @param at the time it holds for: that of the latest reading it uses
 * @param issued when it could be known: when the last of what it was computed from had been recorded
 * @param value the amount, or why there is none
 * @param inputs what it was computed from; at least one
 * @param band how it stands to the protocol's bands; absent where the protocol has none
 * @param tamponade the insertion it belongs to; absent when it belongs to none
 */
public record DerivedValue(
        FactKey key,
        FactKind kind,
        OffsetDateTime at,
        OffsetDateTime issued,
        FactValue value,
        List<FactInput> inputs,
        @Nullable Band band,
        @Nullable UUID tamponade)
        implements CaseFact {

    public DerivedValue {
        inputs = List.copyOf(inputs);
    }
}
