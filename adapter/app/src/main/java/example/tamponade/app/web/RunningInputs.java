package example.tamponade.app.web;

import example.tamponade.app.path.IntakeFullException;
import java.io.InputStream;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;

/** The inputs of several pieces that are being taken; only so many at the same time. */
public final class RunningInputs {

    private final int most;
    private final long longest;
    private final Semaphore room;
    private final Set<RunningInput> running = ConcurrentHashMap.newKeySet();

    /**
     * No input yet.
     *
     * @param most how many at the same time
     * @param longest how many bytes an input may have
     */
    public RunningInputs(int most, long longest) {
        this.most = most;
        this.longest = longest;
        this.room = new Semaphore(most);
    }

    /**
     * Begins an input, to be closed at its end.
     *
     * @throws IntakeFullException when too many are under way
     */
    RunningInput begin(InputStream body) {
        if (!room.tryAcquire()) {
            throw new IntakeFullException(most + " inputs are being taken at this time");
        }
        RunningInput[] input = new RunningInput[1];
        input[0] = new RunningInput(body, longest, () -> {
            running.remove(input[0]);
            room.release();
        });
        running.add(input[0]);
        return input[0];
    }

    /** How far each has come. */
    List<Map<String, Object>> progress() {
        return running.stream().map(RunningInput::progress).toList();
    }
}
