package example.tamponade.fhir.pseudonym;

import java.util.List;
import org.hl7.fhir.r4.model.Resource;

/**
 * Takes from the resources of a case what tells whose it is, by these rules:
 *
 * <ul>
 *   <li>logical ids, the ids of events, identifiers and digests are replaced by those that the key gives;
 *   <li>the times of a case are moved by one number of days, to UTC, so that the hours of the day and what lies between stay;
 *   <li>names, lot numbers, dates of birth and expiry and everything that was written freely are left out;
 *   <li>age, weight, height, what follows from them, gravidity and parity are made coarse.
 * </ul>
 *
 * <p>What remains is still of a patient: with other knowledge, a rare course can be recognised.
 */
public final class Pseudonymiser {

    private final PseudonymKey key;
    private final String base;

    /**
     * Names by that key.
     *
     * @param base what our own addresses begin with
     */
    public Pseudonymiser(PseudonymKey key, String base) {
        this.key = key;
        this.base = base;
    }

    /**
     * How a case, or a facility's own record, looks to others.
     *
     * @param caseKey what the resources belong to; the same gives the same move in time
     * @param onRecord all of its resources
     */
    public PseudonymisedCase of(String caseKey, List<Resource> onRecord) {
        return new PseudonymisedCase(key, base, TimeShift.of(key.days(caseKey), onRecord));
    }
}
