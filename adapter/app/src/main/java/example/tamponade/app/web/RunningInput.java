package example.tamponade.app.web;

import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.path.Receipt;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** An input that is being taken, and what became of its pieces so far. */
final class RunningInput implements AutoCloseable {

    // An input of millions of pieces must not fill the memory with its refusals; all of them are in quarantine.
    private static final int REFUSALS_LISTED = 100;

    private final CountedBody body;
    private final Runnable atEnd;
    private final List<Map<String, Object>> refusals = new ArrayList<>();
    private volatile @Nullable InputFormat format;
    private volatile long stored;
    private volatile long repeated;
    private volatile long refused;

    RunningInput(InputStream body, long longest, Runnable atEnd) {
        this.body = new CountedBody(body, longest);
        this.atEnd = atEnd;
    }

    InputStream body() {
        return body;
    }

    @SuppressWarnings("NonAtomicVolatileUpdate") // One thread counts, others look on.
    void received(Piece piece, Receipt receipt) {
        format = piece.format();
        if (receipt instanceof Receipt.Stored one) {
            stored += one.repeated() ? 0 : 1;
            repeated += one.repeated() ? 1 : 0;
        } else if (receipt instanceof Receipt.Refused one) {
            refused++;
            if (refusals.size() < REFUSALS_LISTED) {
                refusals.add(refusal(piece, one));
            }
        }
    }

    private static Map<String, Object> refusal(Piece piece, Receipt.Refused receipt) {
        Map<String, Object> refusal = new LinkedHashMap<>();
        refusal.put("place", piece.place());
        refusal.put("quarantineId", receipt.quarantineId());
        refusal.put("reasons", receipt.reasons().stream().map(Reason::inJson).toList());
        return refusal;
    }

    boolean onlyRefusals() {
        return refused > 0 && stored + repeated == 0;
    }

    /** How far it has come. */
    Map<String, Object> progress() {
        Map<String, Object> progress = new LinkedHashMap<>();
        if (format != null) {
            progress.put("format", format.code());
        }
        progress.put("bytesRead", body.count());
        progress.put("stored", stored);
        progress.put("repeated", repeated);
        progress.put("refused", refused);
        return progress;
    }

    /** What became of it: the counts and the first refusals. */
    Map<String, Object> inJson() {
        Map<String, Object> answer = progress();
        answer.put("refusals", refusals);
        if (refused > refusals.size()) {
            answer.put("furtherRefusals", "GET /quarantine lists them all");
        }
        return answer;
    }

    @Override
    public void close() {
        atEnd.run();
    }
}
