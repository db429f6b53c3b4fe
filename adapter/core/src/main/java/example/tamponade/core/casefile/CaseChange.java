package example.tamponade.core.casefile;

import java.util.List;

/**
 * What one event, or the passing of time, changed in a case.
 *
 * @param after the case file afterwards
 * @param entries events that now stand, or stand otherwise than before: in content, in place or in what they brought
 * @param withdrawn events that were withdrawn by this change
 * @param facts facts that are new or differ from before, and those of the event that came or was corrected
 * @param gone facts that hold no more
 */
public record CaseChange(
        CaseFile after, List<CaseEntry> entries, List<Withdrawn> withdrawn, List<CaseFact> facts, List<FactKey> gone) {

    public CaseChange {
        entries = List.copyOf(entries);
        withdrawn = List.copyOf(withdrawn);
        facts = List.copyOf(facts);
        gone = List.copyOf(gone);
    }
}
