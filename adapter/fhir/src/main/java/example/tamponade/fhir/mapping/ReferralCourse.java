package example.tamponade.fhir.mapping;

import example.tamponade.core.event.Referral;
import example.tamponade.core.event.ReferralStep;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * One referral: the decision and the steps that follow it, up to the next decision; or the steps before the first decision,
 * of which none is on record.
 *
 * @param decision the step that decided it; null when none is on record
 * @param steps the steps that stand, in order, the decision first
 * @param next the decision that followed; null for the last referral
 */
record ReferralCourse(
        @Nullable Recorded decision,
        List<Recorded> steps,
        @Nullable Recorded next) {

    /** Every referral of a case, in order. */
    static List<ReferralCourse> of(List<Recorded> standing) {
        List<List<Recorded>> courses = new ArrayList<>();
        for (Recorded event : standing) {
            if (event.data() instanceof Referral referral) {
                if (courses.isEmpty() || referral.step() == ReferralStep.DECIDED) {
                    courses.add(new ArrayList<>());
                }
                courses.get(courses.size() - 1).add(event);
            }
        }
        List<ReferralCourse> all = new ArrayList<>();
        for (int i = 0; i < courses.size(); i++) {
            Recorded next = i + 1 < courses.size() ? courses.get(i + 1).get(0) : null;
            all.add(of(courses.get(i), next));
        }
        return List.copyOf(all);
    }

    private static ReferralCourse of(List<Recorded> steps, @Nullable Recorded next) {
        Recorded first = steps.get(0);
        return new ReferralCourse(step(first) == ReferralStep.DECIDED ? first : null, List.copyOf(steps), next);
    }

    /** Of each step the referral it belongs to. */
    static Map<UUID, ReferralCourse> byStep(List<ReferralCourse> courses) {
        Map<UUID, ReferralCourse> byStep = new HashMap<>();
        courses.forEach(course -> course.steps().forEach(it -> byStep.put(it.root, course)));
        return byStep;
    }

    /** The referral that a withdrawn step was part of: its own when it was a decision; with no step when there is none. */
    static ReferralCourse ofWithdrawn(Recorded event, List<ReferralCourse> standing) {
        if (step(event) == ReferralStep.DECIDED) {
            return new ReferralCourse(event, List.of(), null);
        }
        return standing.stream()
                .filter(it -> it.decision == null || !it.decision.at().isAfter(event.at()))
                .reduce((one, later) -> later)
                .orElse(new ReferralCourse(null, List.of(), null));
    }

    static ReferralStep step(Recorded event) {
        return ((Referral) event.data()).step();
    }

    /** The first step of that kind; null when it is not on record. */
    @Nullable
    Recorded first(ReferralStep step) {
        return steps.stream().filter(it -> step(it) == step).findFirst().orElse(null);
    }

    /** The facility that received the mother; null while no other facility has recorded her arrival. */
    @Nullable
    String receivingFacility() {
        if (steps.isEmpty()) {
            return null;
        }
        String sender = decision == null ? steps.get(0).scope.file.caseId().facilityId() : decision.event.facilityId();
        return steps.stream()
                .filter(it -> step(it) == ReferralStep.ARRIVED || step(it) == ReferralStep.HANDED_OVER)
                .map(it -> it.event.facilityId())
                .filter(it -> !it.equals(sender))
                .findFirst()
                .orElse(null);
    }

    boolean isHandedOver() {
        return first(ReferralStep.HANDED_OVER) != null;
    }

    /** Why it goes no further, in words; null when it goes on or was completed. */
    @Nullable
    String whyEnded() {
        if (isHandedOver()) {
            return null;
        }
        if (next != null) {
            return "another referral was decided " + Times.words(next.at());
        }
        boolean closed = !steps.isEmpty() && steps.get(0).scope.file.closedAt() != null;
        boolean left = first(ReferralStep.DEPARTED) != null || first(ReferralStep.ARRIVED) != null;
        return closed && !left ? "the case was closed before she left" : null;
    }
}
