package example.tamponade.app.delivery;

import example.tamponade.app.access.Compartment;
import example.tamponade.app.outbox.DueCase;
import example.tamponade.app.outbox.DueResource;
import example.tamponade.app.outbox.Outbox;
import example.tamponade.app.outbox.OutboxTurns;
import example.tamponade.app.search.FoundVersion;
import example.tamponade.app.search.RecordSearch;
import example.tamponade.app.search.SearchRequest;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Tells the endpoint of a subscription of what is new of a case and fulfils its criteria, each as it is then. */
final class HookDelivery implements CaseSender {

    private final String name;
    private final SearchRequest criteria;
    private final RestHook hook;
    private final Destination destination;
    private final RecordSearch search;
    private final Deliverable deliverable;
    private final OutboxTurns turns;

    HookDelivery(
            String name,
            SearchRequest criteria,
            RestHook hook,
            Destination destination,
            RecordSearch search,
            Deliverable deliverable,
            OutboxTurns turns) {
        this.name = name;
        this.criteria = criteria;
        this.hook = hook;
        this.destination = destination;
        this.search = search;
        this.deliverable = deliverable;
        this.turns = turns;
    }

    @Override
    public Optional<Answer> deliver(DueCase due) {
        String caseKey = due.caseKey();
        if (deliverable.isRestricted(caseKey)) {
            turns.park(name, caseKey, Outbox.NOT_SHARED);
            return Optional.empty();
        }
        List<DueResource> all = turns.due(name, caseKey);
        Map<String, DueResource> ofType = all.stream()
                .filter(it -> it.type().equals(criteria.type()))
                .collect(Collectors.toMap(DueResource::id, Function.identity()));
        for (FoundVersion found : search.matching(criteria, ofType.keySet(), Compartment.EVERYTHING)) {
            turns.renew(name, caseKey, destination.lease());
            Answer answer = hook.tell(found);
            if (answer.kind() != Answer.Kind.TAKEN) {
                giveBack(due, answer);
                return Optional.of(answer).filter(it -> it.kind() == Answer.Kind.UNAVAILABLE);
            }
            turns.delivered(name, caseKey, List.of(ofType.get(found.id())));
        }
        turns.delivered(name, caseKey, all);
        turns.finish(name, caseKey);
        return Optional.empty();
    }

    private void giveBack(DueCase due, Answer answer) {
        if (answer.kind() == Answer.Kind.UNAVAILABLE || answer.kind() == Answer.Kind.CONFLICT) {
            long wait = destination.pauses(CaseDelivery.LONGEST_PAUSE).apply(due.attempts() + 1);
            turns.tryLater(name, due.caseKey(), Duration.ofMillis(wait), answer.words());
        } else {
            turns.park(name, due.caseKey(), answer.words() + "; mend it there, then release the case");
        }
    }
}
