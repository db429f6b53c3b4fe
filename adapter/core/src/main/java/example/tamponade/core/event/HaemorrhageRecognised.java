package example.tamponade.core.event;

import java.util.List;

/**
 * Those at the bedside recognise a postpartum haemorrhage.
 *
 * @param criteria by what; at least one
 * @param suspectedCause from what, as they suspect; may be empty
 */
public record HaemorrhageRecognised(List<RecognitionCriterion> criteria, List<SuspectedCause> suspectedCause)
        implements BedsideEvent {
    public HaemorrhageRecognised {
        criteria = List.copyOf(criteria);
        suspectedCause = List.copyOf(suspectedCause);
    }
}
