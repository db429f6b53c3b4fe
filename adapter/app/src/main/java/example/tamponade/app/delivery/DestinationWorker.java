package example.tamponade.app.delivery;

import example.tamponade.app.intake.FaultLog;
import example.tamponade.app.machine.Memory;
import example.tamponade.app.outbox.DueCase;
import example.tamponade.app.outbox.OutboxTurns;
import io.github.resilience4j.circuitbreaker.CircuitBreaker;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.dao.DataAccessException;
import org.springframework.transaction.TransactionException;

/**
 * Takes one case after the other to a destination. Every second one is the case that has waited shortest, so that a backlog
 * is worked off while what is recorded now arrives as well.
 */
final class DestinationWorker implements Runnable {

    private static final Logger LOG = LoggerFactory.getLogger(DestinationWorker.class);
    private static final long IDLE_MS = 250;
    private static final Duration AFTER_A_FAULT = Duration.ofMinutes(1);

    private final String name;
    private final Destination destination;
    private final CaseSender delivery;
    private final OutboxTurns turns;
    private final CircuitBreaker breaker;
    private boolean oldestFirst;

    /** One of those that share a breaker: when the destination does not answer, none of them asks it for a while. */
    DestinationWorker(
            String name, Destination destination, CaseSender delivery, OutboxTurns turns, CircuitBreaker breaker) {
        this.name = name;
        this.destination = destination;
        this.delivery = delivery;
        this.turns = turns;
        this.breaker = breaker;
    }

    @Override
    public void run() {
        try {
            while (!Thread.currentThread().isInterrupted()) {
                if (!takeOne()) {
                    Thread.sleep(IDLE_MS);
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (OutOfMemoryError e) {
            Memory.endIfExhausted(e);
        }
    }

    private boolean takeOne() {
        if (!breaker.tryAcquirePermission()) {
            return false;
        }
        long began = System.nanoTime();
        try {
            oldestFirst = !oldestFirst;
            Optional<DueCase> due = turns.claim(name, oldestFirst, destination.lease());
            if (due.isEmpty()) {
                breaker.releasePermission();
                return false;
            }
            deliver(due.get(), began);
            return true;
        } catch (DataAccessException | TransactionException e) {
            breaker.releasePermission();
            LOG.warn(
                    "deliveries to {} wait for the database: {}",
                    name,
                    e.getClass().getSimpleName());
            return false;
        }
    }

    private void deliver(DueCase due, long began) {
        Optional<Answer> failure;
        try {
            failure = delivery.deliver(due);
        } catch (DataAccessException | TransactionException e) {
            throw e;
        } catch (RuntimeException e) {
            FaultLog.error(LOG, "a case could not be delivered to " + name + "; please report this", e);
            turns.tryLater(name, due.caseKey(), AFTER_A_FAULT, "the adapter failed at it; its log says where");
            breaker.releasePermission();
            return;
        }
        if (failure.isEmpty()) {
            breaker.onSuccess(System.nanoTime() - began, TimeUnit.NANOSECONDS);
            turns.problem(name, "");
        } else {
            fail(failure.get(), began);
        }
    }

    private void fail(Answer answer, long began) {
        turns.problem(name, answer.words());
        breaker.onError(System.nanoTime() - began, TimeUnit.NANOSECONDS, new UnavailableException(answer.words()));
        if (answer.pause() != null) {
            breaker.transitionToOpenStateFor(answer.pause());
        }
    }
}
