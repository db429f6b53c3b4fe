package example.tamponade.app.intake;

import example.tamponade.core.event.EventEnvelope;

/** What an event is filed under: its case, or its facility when it belongs to no case. */
public final class CaseKey {

    private CaseKey() {}

    /** The key of an event, {@code case/<id>} or {@code facility/<id>}. */
    public static String of(EventEnvelope event) {
        return event.caseId() == null ? "facility/" + event.facilityId() : ofCase(event.caseId());
    }

    /** The key of a case. */
    public static String ofCase(String caseId) {
        return "case/" + caseId;
    }
}
