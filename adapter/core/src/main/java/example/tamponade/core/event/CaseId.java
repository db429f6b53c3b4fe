package example.tamponade.core.event;

/**
 * Which case: a number means something only beside the facility that gave it. Two facilities that number alike have two cases.
 *
 * @param facilityId the facility that gave the number
 * @param number the number, for example {@code FGL-2026-0117}
 */
public record CaseId(String facilityId, String number) {

    /** Facility and number with a slash between, which neither has in it: {@code fernglade-hp/FGL-2026-0117}. */
    @Override
    public String toString() {
        return facilityId + "/" + number;
    }
}
