package example.tamponade.core.derivation;

import example.tamponade.core.event.Coded;
import java.util.Collection;
import java.util.EnumSet;
import java.util.Set;

/**
 * The first-response bundle for postpartum haemorrhage. It is complete when all five measures were taken.
 *
 * <p>Source: Gallos I et al., N Engl J Med 2023;389:11-21, doi 10.1056/NEJMoa2303966.
 */
public enum FirstLineBundle implements Coded {
    /** Massage of the uterus. */
    MASSAGE,
    /** A medicine that contracts the uterus. */
    OXYTOCIC,
    /** Tranexamic acid. */
    TRANEXAMIC_ACID,
    /** Intravenous fluid. */
    INTRAVENOUS_FLUID,
    /** Examination, and escalation. */
    EXAMINATION;

    /**
     * The measures that were not recorded; none when the bundle is complete.
     *
     * @param taken measures that were recorded
     */
    public static Set<FirstLineBundle> missing(Collection<FirstLineBundle> taken) {
        EnumSet<FirstLineBundle> missing = EnumSet.allOf(FirstLineBundle.class);
        missing.removeAll(taken);
        return missing;
    }
}
