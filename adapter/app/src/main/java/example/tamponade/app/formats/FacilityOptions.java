package example.tamponade.app.formats;

import example.tamponade.app.intake.Facilities;
import example.tamponade.core.event.Coded;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import picocli.CommandLine.Spec.Target;

/** On the command line: what is known of the facilities whose files have times without an offset. */
public final class FacilityOptions {

    @Option(
            names = "--zone",
            paramLabel = "ZONE",
            description = "The zone of times that say none, for example +05:45; without it such times are refused.")
    private @Nullable String zone;

    @Option(
            names = "--facility",
            paramLabel = "ID=ZONE[,ORDER]",
            description = "The zone of one facility's times and how it writes dates with slashes: day-month or"
                    + " month-day. Can be given several times.")
    private List<String> facilities = List.of();

    @Spec(Target.MIXEE)
    private @Nullable CommandSpec spec;

    /** What is known. */
    public Facilities facilities() {
        Map<String, Facilities.Facility> byId = new HashMap<>();
        for (String facility : facilities) {
            int end = facility.indexOf('=');
            if (end < 1) {
                throw wrong("--facility " + facility + " has no zone; write ID=ZONE, for example fernglade-hp=+05:45");
            }
            String[] known = facility.substring(end + 1).split(",", 2);
            byId.put(
                    facility.substring(0, end),
                    new Facilities.Facility(zone(known[0]), known.length == 1 ? null : order(known[1])));
        }
        return new Facilities(byId, zone == null ? null : zone(zone));
    }

    private ZoneId zone(String name) {
        try {
            return ZoneId.of(name);
        } catch (DateTimeException e) {
            throw wrong("'" + name + "' is no zone; write an offset as +05:45 or a name as Asia/Kathmandu");
        }
    }

    private Facilities.DateOrder order(String code) {
        try {
            return Coded.of(Facilities.DateOrder.class, code);
        } catch (IllegalArgumentException e) {
            throw wrong(String.valueOf(e.getMessage()));
        }
    }

    private ParameterException wrong(String message) {
        return new ParameterException(java.util.Objects.requireNonNull(spec).commandLine(), message);
    }
}
