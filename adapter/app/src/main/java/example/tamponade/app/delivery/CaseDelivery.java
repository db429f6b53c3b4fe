package example.tamponade.app.delivery;

import example.tamponade.app.outbox.DueCase;
import example.tamponade.app.outbox.DueResource;
import example.tamponade.app.outbox.Held;
import example.tamponade.app.outbox.HeldResources;
import example.tamponade.app.outbox.Outbox;
import example.tamponade.app.outbox.OutboxTurns;
import io.github.resilience4j.core.IntervalFunction;
import java.io.UncheckedIOException;
import java.time.Duration;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.springframework.transaction.support.TransactionOperations;

/** Delivers what is due of a case to one destination, batch by batch, each kept as it is taken. */
final class CaseDelivery implements CaseSender {

    // Who changes the same resources at the same time has done so by then.
    private static final int MOST_CONFLICTS = 5;

    static final Duration LONGEST_PAUSE = Duration.ofMinutes(10);

    private final String name;
    private final IntervalFunction pauses;
    private final Destination destination;
    private final Receiver receiver;
    private final Deliverable deliverable;
    private final OutboxTurns turns;
    private final HeldResources held;
    private final TransactionOperations transactions;

    CaseDelivery(
            String name,
            Destination destination,
            Receiver receiver,
            Deliverable deliverable,
            OutboxTurns turns,
            HeldResources held,
            TransactionOperations transactions) {
        this.name = name;
        this.destination = destination;
        this.pauses = destination.pauses(LONGEST_PAUSE);
        this.receiver = receiver;
        this.deliverable = deliverable;
        this.turns = turns;
        this.held = held;
        this.transactions = transactions;
    }

    @Override
    public Optional<Answer> deliver(DueCase due) {
        String caseKey = due.caseKey();
        List<DueResource> versions = turns.due(name, caseKey);
        if (destination.takes(caseKey)) {
            if (!destination.restricted() && deliverable.isRestricted(caseKey)) {
                turns.park(name, caseKey, Outbox.NOT_SHARED);
                return Optional.empty();
            }
            if (deliverable.lacksIdentifier(destination, caseKey)) {
                turns.park(name, caseKey, Outbox.NO_IDENTIFIER);
                return Optional.empty();
            }
            Optional<Answer> failure = send(due, versions);
            if (failure.isPresent()) {
                return failure.filter(it -> it.kind() == Answer.Kind.UNAVAILABLE);
            }
        }
        // What it does not get is not due either.
        turns.delivered(name, caseKey, versions);
        turns.finish(name, caseKey);
        return Optional.empty();
    }

    private Optional<Answer> send(DueCase due, List<DueResource> versions) {
        DueContent content = deliverable.content(name, destination, due.caseKey(), versions);
        Map<String, DueResource> byName =
                versions.stream().collect(Collectors.toMap(DueResource::name, Function.identity()));
        int most = destination.batch();
        int conflicts = 0;
        for (Batch batch = content.next(most); !batch.isEmpty(); batch = content.next(most)) {
            turns.renew(name, due.caseKey(), destination.lease());
            Answer answer = receiver.put(due.caseKey(), batch.resources(), there(batch));
            if (answer.kind() == Answer.Kind.TAKEN) {
                keep(due.caseKey(), batch, answer, byName);
                conflicts = 0;
                continue;
            }
            content.putBack(batch);
            boolean goesOn = switch (answer.kind()) {
                case CONFLICT -> ++conflicts <= MOST_CONFLICTS && readAgain(batch);
                case TOO_LARGE -> most > 1;
                default -> false;
            };
            if (!goesOn) {
                giveBack(due, answer);
                return Optional.of(answer);
            }
            most = answer.kind() == Answer.Kind.TOO_LARGE ? most / 2 : most;
        }
        return Optional.empty();
    }

    private Map<String, Held> there(Batch batch) {
        Set<String> names = new HashSet<>(batch.names());
        if (destination.ids() == ResourceIds.RECEIVER) {
            names.addAll(batch.references());
        }
        return held.of(name, names);
    }

    private void keep(String caseKey, Batch batch, Answer answer, Map<String, DueResource> byName) {
        List<DueResource> taken = batch.names().stream()
                .filter(byName::containsKey)
                .map(byName::get)
                .toList();
        transactions.executeWithoutResult(status -> {
            turns.delivered(name, caseKey, taken);
            held.keep(name, batch.held(answer));
        });
    }

    // What was sent is what the record says, whoever changed it there: it is put in place of what is there now.
    private boolean readAgain(Batch batch) {
        try {
            Map<String, Held> known = known(batch.names());
            Map<String, Held> found = new HashMap<>();
            receiver.versions(known)
                    .forEach((resource, etag) -> found.put(
                            resource,
                            new Held(
                                    "",
                                    etag,
                                    Objects.requireNonNull(known.get(resource)).id())));
            held.forget(name, batch.names());
            held.keep(name, found);
            return true;
        } catch (UncheckedIOException e) {
            return false;
        }
    }

    private Map<String, Held> known(Set<String> names) {
        Map<String, Held> known = new HashMap<>(held.of(name, names));
        names.forEach(it -> known.putIfAbsent(it, new Held("", "", "")));
        return known;
    }

    private void giveBack(DueCase due, Answer answer) {
        switch (answer.kind()) {
            case REFUSED, TOO_LARGE ->
                turns.park(name, due.caseKey(), answer.words() + "; mend it there, then release the case");
            default ->
                turns.tryLater(
                        name, due.caseKey(), Duration.ofMillis(pauses.apply(due.attempts() + 1)), answer.words());
        }
    }
}
