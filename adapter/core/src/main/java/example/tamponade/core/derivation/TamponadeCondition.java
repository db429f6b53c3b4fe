package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.util.Collection;
import java.util.EnumSet;
import java.util.Set;

/**
 * The conditions under which a guideline recommends uterine balloon tamponade; all are needed.
 *
 * <p>Source: WHO recommendation on uterine balloon tamponade for the treatment of postpartum haemorrhage, 2021, ISBN
 * 978-92-4-001384-1.
 */
public enum TamponadeCondition implements Coded {
    /** The uterus does not contract. */
    ATONY,
    /** The birth was vaginal. */
    VAGINAL_BIRTH,
    /** First-line treatment was given and failed, by a protocol that is in place. */
    FIRST_LINE_FAILED,
    /** Surgery and blood can be reached. */
    SURGERY_AND_BLOOD_WITHIN_REACH,
    /** Retained tissue and trauma are reasonably excluded. */
    TISSUE_AND_TRAUMA_EXCLUDED,
    /** The staff are trained. */
    TRAINED_STAFF,
    /** Regular monitoring is possible. */
    MONITORING_POSSIBLE;

    /**
     * The conditions that were not recorded; not recorded does not mean not met.
     *
     * @param recorded conditions that were recorded as met
     */
    public static Set<TamponadeCondition> notRecorded(Collection<TamponadeCondition> recorded) {
        EnumSet<TamponadeCondition> missing = EnumSet.allOf(TamponadeCondition.class);
        missing.removeAll(recorded);
        return missing;
    }
}
