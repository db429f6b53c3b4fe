package example.tamponade.app.outbox;

import org.jspecify.annotations.Nullable;

/**
 * How a destination stands.
 *
 * @param name the destination
 * @param waitingCases cases of which something is due, parked ones not among them
 * @param parkedCases cases that it refused
 * @param resources resources that are due
 * @param oldest since when the oldest has been due; null when nothing is
 * @param problem what keeps everything from being delivered; empty when nothing does
 * @param problemAt when that was seen last; empty when there is none
 */
public record DestinationState(
        String name,
        long waitingCases,
        long parkedCases,
        long resources,
        @Nullable String oldest,
        String problem,
        String problemAt) {}
