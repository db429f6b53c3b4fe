package example.tamponade.core.event;

import java.time.OffsetDateTime;
import org.jspecify.annotations.Nullable;

/**
 * The case of one mother begins.
 *
 * @param mother what is known of her
 * @param encounterStart when her stay began
 * @param consent what she said about sharing her record; absent when not asked
 */
public record CaseOpened(
        Mother mother,
        OffsetDateTime encounterStart,
        @Nullable Consent consent) implements BedsideEvent {}
