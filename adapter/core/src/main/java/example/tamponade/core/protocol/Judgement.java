package example.tamponade.core.protocol;

import java.math.BigDecimal;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Collects what is found in one event. */
final class Judgement {

    private static final String MEASURE_AGAIN = "check the reading and its unit, then send the value that was measured";

    private final CareProtocol protocol;
    private final List<Finding> findings = new ArrayList<>();

    Judgement(CareProtocol protocol) {
        this.protocol = protocol;
    }

    Judgement range(Measure measure, String property, @Nullable BigDecimal value) {
        if (value == null) {
            return this;
        }
        Limit limit = protocol.limit(measure);
        if (!limit.possible(value)) {
            add(Finding.Grade.IMPOSSIBLE, property, outside(value, limit, limit.possibleFrom(), limit.possibleTo()));
        } else if (!limit.plausible(value)) {
            add(Finding.Grade.IMPLAUSIBLE, property, outside(value, limit, limit.plausibleFrom(), limit.plausibleTo()));
        }
        return this;
    }

    BigDecimal value(Setting setting) {
        return protocol.value(setting);
    }

    Judgement range(Measure measure, String property, @Nullable Integer value) {
        return range(measure, property, value == null ? null : BigDecimal.valueOf(value));
    }

    /** Refuses the event when the lower value is above the upper one. */
    Judgement order(String property, @Nullable BigDecimal lower, String upperName, @Nullable BigDecimal upper) {
        if (lower != null && upper != null && lower.compareTo(upper) > 0) {
            impossible(property, property + " " + lower + " is above " + upperName + " " + upper);
        }
        return this;
    }

    /** Refuses the event when a time span ends before it begins. */
    Judgement span(String property, OffsetDateTime from, @Nullable OffsetDateTime to) {
        if (to != null && to.isBefore(from)) {
            findings.add(new Finding(
                    Finding.Grade.IMPOSSIBLE,
                    "/data/" + property,
                    "the time ends at " + to + " before it begins at " + from,
                    "correct the begin or the end"));
        }
        return this;
    }

    Judgement impossible(String property, String message) {
        add(Finding.Grade.IMPOSSIBLE, property, message);
        return this;
    }

    List<Finding> findings() {
        return List.copyOf(findings);
    }

    private void add(Finding.Grade grade, String property, String message) {
        findings.add(new Finding(grade, "/data/" + property, message, MEASURE_AGAIN));
    }

    private static String outside(BigDecimal value, Limit limit, BigDecimal from, BigDecimal to) {
        String unit = limit.measure().unit();
        return value + " " + unit + " is outside " + from + " to " + to + " " + unit;
    }
}
