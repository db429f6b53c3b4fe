package example.tamponade.core.casefile;

import java.util.List;

/**
 * What one event, or the passing of time, changed in a case.
 *
 * @param after the case file afterwards
 * @param facts facts that are new or differ from before
 * @param gone facts that hold no more
 */
public record CaseChange(CaseFile after, List<CaseFact> facts, List<FactKey> gone) {

    public CaseChange {
        facts = List.copyOf(facts);
        gone = List.copyOf(gone);
    }
}
