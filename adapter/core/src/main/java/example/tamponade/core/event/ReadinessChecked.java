package example.tamponade.core.event;

import org.jspecify.annotations.Nullable;

/**
 * The facility looked whether it is ready; belongs to no case.
 *
 * @param tamponadeSet the set in store
 * @param uterotonicsInDate whether uterotonics are there and in date
 * @param bloodReachable whether blood can be had
 * @param transportReachable whether transport can be had
 * @param theatreReachableMinutes minutes to the nearest operating theatre, min; absent: none can be reached
 */
public record ReadinessChecked(
        StoredSet tamponadeSet,
        boolean uterotonicsInDate,
        boolean bloodReachable,
        boolean transportReachable,
        @Nullable Integer theatreReachableMinutes)
        implements BedsideEvent {}
