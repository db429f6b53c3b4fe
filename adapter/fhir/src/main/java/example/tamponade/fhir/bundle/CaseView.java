package example.tamponade.fhir.bundle;

import example.tamponade.core.event.Coded;

/**
 * How much of a case is told. What stands in which view is a rule for each profile, in {@code views.properties}; every view
 * holds all that its resources point to, or the address of it.
 */
public enum CaseView implements Coded {
    /** Everything on record, for an archive. */
    FULL,
    /**
     * What was recorded, the derived values at each change of state and on the hour, the latest of every other value, and
     * the warnings.
     */
    COURSE,
    /** What the next team has to know, for one page: who she is, what was done, how she is now and what is due. */
    HANDOVER
}
