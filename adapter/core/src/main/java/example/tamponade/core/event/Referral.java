package example.tamponade.core.event;

import org.jspecify.annotations.Nullable;

/**
 * A referral took a step.
 *
 * @param step which step
 * @param to the receiving facility
 * @param reason why; needed when it is decided
 * @param balloonInPlace whether the balloon is in place
 * @param transport by what transport
 */
public record Referral(
        ReferralStep step,
        String to,
        @Nullable ReferralReason reason,
        boolean balloonInPlace,
        @Nullable String transport)
        implements BedsideEvent {}
