package example.tamponade.app.intake;

import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.zone.ZoneRules;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What is known of the facilities that send: which zone their clocks keep and how they write dates. Formats whose times
 * carry no offset ask here.
 *
 * @param byId the facilities by their id in events
 * @param zone the zone of every facility that names none; null when there is none, then such times are refused
 */
public record Facilities(
        Map<String, Facility> byId, @Nullable ZoneId zone) {

    /** No facility is known and no zone. */
    public static final Facilities NONE = new Facilities(Map.of(), null);

    /**
     * A facility.
     *
     * @param zone the zone of its clocks, for example {@code +05:45}; null: the zone of all
     * @param dateOrder how it writes dates with slashes; null: not said, such dates are refused
     */
    public record Facility(@Nullable ZoneId zone, @Nullable DateOrder dateOrder) {}

    /** In which order day and month stand in a date with slashes. */
    public enum DateOrder {
        DAY_MONTH,
        MONTH_DAY
    }

    /** What becomes of a local time. */
    public sealed interface Placing {

        /** The time with the offset that the facility's clocks had then. */
        record Placed(OffsetDateTime time) implements Placing {}

        /** The time cannot be told; why, and what the sender can do. */
        record NotPlaced(String message, String remedy) implements Placing {

            /** The reason against a property, by {@link Reason#path()}. */
            public Reason reason(String path) {
                return new Reason(ReasonCode.TIME_WITHOUT_OFFSET, path, message, remedy);
            }
        }
    }

    public Facilities {
        byId = Map.copyOf(byId);
    }

    /** How the facility writes dates with slashes; null when that is not known. */
    public @Nullable DateOrder dateOrder(String facilityId) {
        Facility facility = byId.get(facilityId);
        return facility == null ? null : facility.dateOrder();
    }

    /**
     * Places a local time of a facility. A time that its clocks showed twice or never is not placed.
     *
     * @param facilityId the facility whose clock showed it
     * @param local what the clock showed
     */
    public Placing place(String facilityId, LocalDateTime local) {
        ZoneId zone = zone(facilityId);
        if (zone == null) {
            return new Placing.NotPlaced(
                    local + " has no offset from UTC, and no zone is known for the facility '" + facilityId + "'",
                    "write the offset behind the time, for example +05:45 or Z, or have the facility's zone set");
        }
        ZoneRules rules = zone.getRules();
        List<ZoneOffset> offsets = rules.getValidOffsets(local);
        if (offsets.size() == 1) {
            return new Placing.Placed(local.atOffset(offsets.get(0)));
        }
        String when = offsets.isEmpty() ? "never, as they were set forward" : "twice, as they were set back";
        var change = rules.getTransition(local);
        return new Placing.NotPlaced(
                "the clocks in " + zone + " showed " + local + " " + when,
                "write the offset behind the time: " + change.getOffsetBefore() + " before the change, "
                        + change.getOffsetAfter() + " after it");
    }

    private @Nullable ZoneId zone(String facilityId) {
        Facility facility = byId.get(facilityId);
        return facility == null || facility.zone() == null ? zone : facility.zone();
    }
}
