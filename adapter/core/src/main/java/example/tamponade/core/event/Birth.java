package example.tamponade.core.event;

import java.time.OffsetDateTime;
import java.util.List;

/**
 * A baby, or several, were born.
 *
 * @param at time of birth; with several babies, of the last
 * @param mode how
 * @param babies each baby, in order of birth
 * @param placentaDelivered whether the placenta has come
 */
public record Birth(OffsetDateTime at, BirthMode mode, List<Baby> babies, PlacentaState placentaDelivered)
        implements BedsideEvent {
    public Birth {
        babies = List.copyOf(babies);
    }
}
