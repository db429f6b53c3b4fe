package example.tamponade.app.web;

import example.tamponade.app.outbox.DestinationState;
import example.tamponade.app.outbox.NoSuchDestinationException;
import example.tamponade.app.outbox.Outbox;
import example.tamponade.app.outbox.OutboxEntry;
import example.tamponade.app.outbox.OutboxState;
import example.tamponade.app.outbox.OutboxStates;
import example.tamponade.core.event.Coded;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

/** Tells how deliveries stand, and has refused ones tried again. */
@RestController
public class DeliveryController {

    private final Outbox outbox;
    private final OutboxStates states;

    /** Tells of that outbox. */
    public DeliveryController(Outbox outbox, OutboxStates states) {
        this.outbox = outbox;
        this.states = states;
    }

    /** How each destination stands: what waits, since when, what is parked, and what keeps everything from it. */
    @GetMapping(path = "/deliveries", produces = MediaType.APPLICATION_JSON_VALUE)
    List<DestinationState> destinations() {
        return states.states();
    }

    /** The cases that wait for a destination, or with {@code state=parked} those that it refused, and why. */
    @GetMapping(path = "/deliveries/{destination}", produces = MediaType.APPLICATION_JSON_VALUE)
    List<OutboxEntry> cases(
            @PathVariable("destination") String destination,
            @RequestParam(name = "state", defaultValue = "waiting") String state,
            @RequestParam(name = "limit", defaultValue = "100") int limit) {
        int most = Math.max(1, Math.min(limit, OutboxStates.MOST));
        return states.entries(destination, Coded.of(OutboxState.class, state), most);
    }

    /** Has parked cases tried again: one, by its key as it is listed, or all. */
    @PostMapping(path = "/deliveries/{destination}/release", produces = MediaType.APPLICATION_JSON_VALUE)
    Map<String, Object> release(
            @PathVariable("destination") String destination,
            @RequestParam(name = "case", defaultValue = "") String caseKey) {
        states.demand(destination);
        return Map.of("released", outbox.release(destination, caseKey));
    }

    /** Has what is on record sent again, of one case or of all, since a time or all of it, whether it is there or not. */
    @PostMapping(path = "/deliveries/{destination}/again", produces = MediaType.APPLICATION_JSON_VALUE)
    Map<String, Object> again(
            @PathVariable("destination") String destination,
            @RequestParam(name = "case", defaultValue = "") String caseKey,
            @RequestParam(name = "since", defaultValue = "") String since) {
        states.demand(destination);
        return Map.of("resources", outbox.sendAgain(destination, caseKey, time(since)));
    }

    private static @Nullable Instant time(String text) {
        try {
            return text.isEmpty() ? null : Instant.parse(text);
        } catch (DateTimeParseException e) {
            throw new IllegalArgumentException(
                    "since: '" + text + "' is no time; write for example 2026-02-11T17:00:00Z", e);
        }
    }

    /** Forgets a destination that is no longer in the settings. */
    @DeleteMapping(path = "/deliveries/{destination}", produces = MediaType.APPLICATION_JSON_VALUE)
    Map<String, Object> forget(@PathVariable("destination") String destination) {
        states.demand(destination);
        return Map.of("wereDue", outbox.forget(destination));
    }

    @ExceptionHandler
    ResponseEntity<ProblemDetail> noSuchDestination(NoSuchDestinationException e) {
        return problem(HttpStatus.NOT_FOUND, e);
    }

    @ExceptionHandler
    ResponseEntity<ProblemDetail> unknownCode(IllegalArgumentException e) {
        return problem(HttpStatus.BAD_REQUEST, e);
    }

    private static ResponseEntity<ProblemDetail> problem(HttpStatus status, Exception e) {
        return ResponseEntity.of(ProblemDetail.forStatusAndDetail(status, String.valueOf(e.getMessage())))
                .build();
    }
}
