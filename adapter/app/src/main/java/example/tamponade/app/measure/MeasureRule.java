package example.tamponade.app.measure;

import example.tamponade.core.event.Coded;
import java.util.Arrays;
import java.util.Optional;
import java.util.function.Predicate;

/**
 * The measures, each as the Measure of that id in the published package says it: the same criteria, asked of a case's facts
 * and not of all its resources. Sources stand there.
 */
public enum MeasureRule implements Coded {
    ANTIFIBRINOLYTIC_WITHIN_3_HOURS(
            Fact.RECOGNISED, it -> it.isAtMost("birth-to-antifibrinolytic", Limit.ANTIFIBRINOLYTIC)),
    FIRST_RESPONSE_IN_TIME(
            Fact.RECOGNISED,
            it -> it.has("recognition-to-first-response-complete") && it.hasNone("first-response-late")),
    BLEEDING_CONTROLLED(Fact.INSERTED, it -> it.has("insertion-to-control")),
    CONTROLLED_IN_TIME(Fact.INSERTED, it -> it.has("insertion-to-control") && it.hasNone("control-deadline-missed")),
    SETTLED_WITH_TAMPONADE(Fact.ENDED, it -> it.is("outcome-class", "settled-with-tamponade")),
    DWELL_WITHIN_LIMIT(Fact.ENDED, it -> it.hasNone("dwell-limit-passed")),
    DEFLATED_BY_PROTOCOL(
            it -> it.has("deflation-step-volume"),
            it -> it.hasNone("deflation-too-early", "deflation-step-too-large", "removal-too-early")),
    NO_CHECK_MISSED(Fact.INSERTED, it -> it.hasNone("check-missed")),
    DEPARTED_WITHIN_60_MINUTES(
            it -> it.has("recognition-to-referral"), it -> it.isAtMost("referral-to-departure", Limit.DEPARTURE)),
    NEAR_MISS(Fact.RECOGNISED, it -> it.hasPart("near-miss-criteria")),
    OUTCOME_ON_RECORD(it -> true, it -> it.has("outcome-class"));

    private static final class Limit {
        private static final long ANTIFIBRINOLYTIC = 180;
        private static final long DEPARTURE = 60;
    }

    private static final class Fact {
        private static final Predicate<CaseFacts> RECOGNISED = it -> it.has("birth-to-recognition");
        private static final Predicate<CaseFacts> INSERTED = it -> it.has("time-in-situ");
        private static final Predicate<CaseFacts> ENDED = it -> it.has("time-in-situ") && it.has("outcome-class");
    }

    private final Predicate<CaseFacts> denominator;
    private final Predicate<CaseFacts> numerator;

    MeasureRule(Predicate<CaseFacts> denominator, Predicate<CaseFacts> numerator) {
        this.denominator = denominator;
        this.numerator = numerator;
    }

    /** The measure of that id. */
    public static Optional<MeasureRule> of(String id) {
        return Arrays.stream(values()).filter(it -> it.code().equals(id)).findFirst();
    }

    /** What a case counts for. */
    Standing standing(CaseFacts facts) {
        if (!denominator.test(facts)) {
            return Standing.NOT_ASKED;
        }
        return numerator.test(facts) ? Standing.MET : Standing.NOT_MET;
    }

    /** What a case counts for in a measure. */
    public enum Standing {
        /** It is not in the denominator. */
        NOT_ASKED,
        /** It is in the denominator, and not in the numerator. */
        NOT_MET,
        /** It is in the numerator. */
        MET
    }
}
