package example.tamponade.core.event;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/**
 * Which code handles which type of event: one table for each use, refused unless every type of the vocabulary is in it.
 *
 * @param <C> what a handler works on beside the event's data
 * @param <R> what a handler gives back
 */
public final class EventTable<C, R> {

    /** Handles the data of one type of event. */
    @FunctionalInterface
    public interface Handler<T extends BedsideEvent, C, R> {

        /** Handles the data; the context is the table user's own. */
        R handle(T data, C context);
    }

    private final Map<Class<?>, Handler<BedsideEvent, C, R>> handlers;

    private EventTable(Map<Class<?>, Handler<BedsideEvent, C, R>> handlers) {
        this.handlers = Map.copyOf(handlers);
    }

    /** Begins a table. */
    public static <C, R> Builder<C, R> of() {
        return new Builder<>();
    }

    /** Gives the data to the handler of its type. */
    public R handle(BedsideEvent data, C context) {
        return Objects.requireNonNull(handlers.get(data.getClass())).handle(data, context);
    }

    /** Collects the handlers of a table. */
    public static final class Builder<C, R> {

        private final Map<Class<?>, Handler<BedsideEvent, C, R>> handlers = new HashMap<>();

        private Builder() {}

        /** Sets the handler of one type; a type may be set once. */
        public <T extends BedsideEvent> Builder<C, R> on(Class<T> type, Handler<? super T, C, R> handler) {
            if (handlers.put(type, (data, context) -> handler.handle(type.cast(data), context)) != null) {
                throw new IllegalStateException(type.getSimpleName() + " is handled twice");
            }
            return this;
        }

        /** The finished table; fails when a type of the vocabulary has no handler. */
        public EventTable<C, R> complete() {
            List<String> missing = Arrays.stream(BedsideEvent.class.getPermittedSubclasses())
                    .filter(it -> !handlers.containsKey(it))
                    .map(Class::getSimpleName)
                    .toList();
            if (!missing.isEmpty()) {
                throw new IllegalStateException("no handler for " + missing);
            }
            return new EventTable<>(handlers);
        }
    }
}
