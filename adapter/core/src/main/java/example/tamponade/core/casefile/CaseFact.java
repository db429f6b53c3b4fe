package example.tamponade.core.casefile;

/** Something the case file found out. */
public sealed interface CaseFact permits DerivedValue, Flag, RecordIssue {

    /** Which fact it is. */
    FactKey key();
}
