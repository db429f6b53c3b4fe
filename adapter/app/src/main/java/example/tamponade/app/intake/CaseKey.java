package example.tamponade.app.intake;

import example.tamponade.core.event.CaseId;
import example.tamponade.core.event.EventEnvelope;
import org.jspecify.annotations.Nullable;

/** What an event is filed under: its case, or its facility when it belongs to no case. */
public final class CaseKey {

    private static final String CASE = "case/";
    private static final String FACILITY = "facility/";

    private CaseKey() {}

    /** The key of an event, {@code case/<facility>/<number>} or {@code facility/<facility>}. */
    public static String of(EventEnvelope event) {
        CaseId caseId = event.caseId();
        return caseId == null ? ofFacility(event.facilityId()) : of(caseId);
    }

    /** The key of a case. */
    public static String of(CaseId caseId) {
        return CASE + caseId;
    }

    /** The key of a facility's own events. */
    public static String ofFacility(String facilityId) {
        return FACILITY + facilityId;
    }

    /** The facility that a key is of; null when it is of a case. */
    public static @Nullable String facilityId(String key) {
        return key.startsWith(FACILITY) ? key.substring(FACILITY.length()) : null;
    }

    /** The case that a key is of; null when it is of a facility. */
    public static @Nullable CaseId caseId(String key) {
        if (!key.startsWith(CASE)) {
            return null;
        }
        int end = key.lastIndexOf('/');
        return new CaseId(key.substring(CASE.length(), end), key.substring(end + 1));
    }
}
