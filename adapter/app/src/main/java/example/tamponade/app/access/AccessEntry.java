package example.tamponade.app.access;

import example.tamponade.app.database.Instants;
import java.time.Instant;
import java.util.List;
import tools.jackson.databind.json.JsonMapper;

/**
 * What somebody did.
 *
 * @param at when, as the database writes it
 * @param who whose request it was
 * @param client the program that he used; empty where that is not said
 * @param from the network address that it came from; empty where there is none
 * @param action what kind of thing it was
 * @param what what it was done to: a path of this server without its conditions
 * @param query the conditions, as they were asked
 * @param outcome the HTTP status when it was refused; 0 otherwise
 * @param events how many events were taken
 * @param refused how many pieces of an input were refused
 * @param cases the keys of the cases that events were taken for
 */
public record AccessEntry(
        String at,
        String who,
        String client,
        String from,
        Action action,
        String what,
        String query,
        int outcome,
        int events,
        int refused,
        List<String> cases) {

    /** What kinds of things are done. */
    public enum Action {
        /** Something was added. */
        CREATE,
        /** Something was read. */
        READ,
        /** Something was searched, exported or set going. */
        EXECUTE,
        /** Something was taken away. */
        DELETE
    }

    private static final JsonMapper JSON = JsonMapper.builder().build();

    /** An entry of a request for what is here. */
    public static AccessEntry of(
            Instant at, Caller caller, String from, Action action, String what, String query, int outcome) {
        return new AccessEntry(
                Instants.text(at), caller.name(), caller.client(), from, action, what, query, outcome, 0, 0, List.of());
    }

    /** An entry of an input. */
    public static AccessEntry ofInput(Instant at, Caller caller, int events, int refused, List<String> cases) {
        return new AccessEntry(
                Instants.text(at),
                caller.name(),
                caller.client(),
                caller.address(),
                Action.CREATE,
                "events",
                "",
                0,
                events,
                refused,
                cases);
    }

    /** As it is kept: its time, and everything as JSON. */
    String text() {
        return at + " " + JSON.writeValueAsString(this);
    }

    static AccessEntry of(String text) {
        return JSON.readValue(text.substring(text.indexOf(' ') + 1), AccessEntry.class);
    }
}
