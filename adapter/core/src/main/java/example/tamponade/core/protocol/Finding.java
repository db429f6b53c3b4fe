package example.tamponade.core.protocol;

/**
 * One value of an event that the care protocol does not expect.
 *
 * @param grade whether the event is refused or only marked
 * @param path where the value stands, as a JSON pointer, for example {@code /data/pulse}
 * @param message what is wrong, with the value and the range
 * @param remedy what the sender can do
 */
public record Finding(Grade grade, String path, String message, String remedy) {

    /** How far a value is from what is expected. */
    public enum Grade {
        /** It cannot be: the event is refused. */
        IMPOSSIBLE,
        /** It is hardly seen: the event is accepted and marked. */
        IMPLAUSIBLE
    }
}
