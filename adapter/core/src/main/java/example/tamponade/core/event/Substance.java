package example.tamponade.core.event;

/** The medicine or fluid given. */
public enum Substance implements Coded {
    /** Oxytocin. */
    OXYTOCIN,
    /** Carbetocin. */
    CARBETOCIN,
    /** Ergometrine. */
    ERGOMETRINE,
    /** Misoprostol. */
    MISOPROSTOL,
    /** Tranexamic acid. */
    TRANEXAMIC_ACID,
    /** A crystalloid fluid. */
    CRYSTALLOID,
    /** An antibiotic. */
    ANTIBIOTIC,
    /** Another medicine; the name says which. */
    OTHER
}
