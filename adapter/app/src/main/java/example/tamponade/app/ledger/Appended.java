package example.tamponade.app.ledger;

/** What became of an event that was to be appended. */
public enum Appended {
    /** It is in the ledger now. */
    STORED,
    /** The same event was there already. */
    ALREADY_STORED,
    /** Another event has its id; nothing was stored. */
    CONFLICT,
    /** Its case was opened for another mother; nothing was stored. */
    ANOTHER_MOTHER,
    /** What it corrects or withdraws is of another case; nothing was stored. */
    ANOTHER_CASE
}
