package example.tamponade.app.path;

import example.tamponade.app.access.Caller;
import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.intake.Reason;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * The path of an event: a format reads the pieces of an input, the writer puts them into the ledger or into quarantine, and
 * behind the acknowledgement the projector has the case folded, mapped, checked and put on record. Every way in ends here.
 *
 * <p>What a receipt says is on disk. If the machine stops behind it, the projector goes on from the case's checkpoint.
 */
public final class EventPath {

    private static final int BLOCK = 500;
    private static final long MAX_BLOCK_BYTES = 2L << 20;

    private final IntakeWriter writer;
    private final @Nullable Projector projector;
    private final long mostBehind;

    /** Takes events where no record is kept, as by a command beside the server. */
    public EventPath(IntakeWriter writer) {
        this(writer, null, Long.MAX_VALUE);
    }

    /**
     * Takes events by way of these parts.
     *
     * @param mostBehind how many events may be acknowledged and not on record yet; long inputs wait at half of it, so that
     *     single events find room beside them
     */
    public EventPath(IntakeWriter writer, @Nullable Projector projector, long mostBehind) {
        this.writer = writer;
        this.projector = projector;
        this.mostBehind = mostBehind;
    }

    /** Is told of each piece and its receipt. */
    public interface Watcher {

        /** That piece has this receipt; it is on disk. */
        void received(Piece piece, Receipt receipt) throws IOException;
    }

    /**
     * Takes pieces that were handed in together, at most {@link IntakeWriter#COMMIT_SIZE}, in one commit. Events of
     * facilities that the caller may not send for are refused.
     *
     * @param by whose they are
     * @return what became of each piece, in their order
     * @throws IntakeFullException when too much is waiting; nothing was taken
     * @throws LedgerFailedException when the database could not write; nothing was taken
     */
    public List<Receipt> take(Caller by, List<Piece> pieces) {
        if (projector != null && projector.isTooFarBehind(mostBehind)) {
            throw new IntakeFullException(projector.behind() + " events are acknowledged, but not on record yet");
        }
        return finish(pieces, writer.offer(by, admitted(by, pieces), true));
    }

    /** Takes pieces like {@link #take}, but what is refused does not go to quarantine: it comes from there. */
    public List<Receipt> takeCorrection(Caller by, List<Piece> pieces) {
        return finish(pieces, writer.offer(by, admitted(by, pieces), false));
    }

    /**
     * Takes a whole input of any length in constant memory; one block is written while the next is read.
     *
     * @param by whose it is
     * @throws LedgerFailedException when the database could not write; what the watcher has not been told was not taken
     */
    public void takeAll(Caller by, Pieces pieces, Watcher watcher) throws IOException {
        List<Piece> block = List.of();
        CompletableFuture<List<Receipt>> written = CompletableFuture.completedFuture(List.of());
        for (List<Piece> next = block(pieces); !next.isEmpty(); next = block(pieces)) {
            CompletableFuture<List<Receipt>> writing = put(by, next);
            tell(block, finish(block, written), watcher);
            block = next;
            written = writing;
        }
        tell(block, finish(block, written), watcher);
    }

    private static List<Piece> admitted(Caller by, List<Piece> pieces) {
        return pieces.stream().map(it -> admitted(by, it)).toList();
    }

    private static Piece admitted(Caller by, Piece piece) {
        return piece.intake() instanceof Intake.Taken taken
                        && !by.compartment().covers(taken.event().facilityId())
                ? piece.refused(Reason.ofAnotherFacility(taken.event().facilityId()))
                : piece;
    }

    private static List<Piece> block(Pieces pieces) throws IOException {
        List<Piece> block = new ArrayList<>(BLOCK);
        long bytes = 0;
        while (block.size() < BLOCK && bytes < MAX_BLOCK_BYTES) {
            Piece piece = pieces.next();
            if (piece == null) {
                break;
            }
            block.add(piece);
            bytes += piece.original().length();
        }
        return block;
    }

    private CompletableFuture<List<Receipt>> put(Caller by, List<Piece> block) {
        try {
            if (projector != null) {
                projector.waitUntilBehindAtMost(mostBehind / 2);
            }
            return writer.put(by, admitted(by, block));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IntakeFullException("the adapter is stopping");
        }
    }

    private List<Receipt> finish(List<Piece> pieces, CompletableFuture<List<Receipt>> written) {
        try {
            List<Receipt> receipts = written.join();
            if (projector != null) {
                projector.wake(cases(pieces, receipts));
            }
            return receipts;
        } catch (CompletionException e) {
            throw LedgerFailures.of(e.getCause() == null ? e : e.getCause());
        }
    }

    private static Map<String, Long> cases(List<Piece> pieces, List<Receipt> receipts) {
        return java.util.stream.IntStream.range(0, receipts.size())
                .filter(it -> receipts.get(it) instanceof Receipt.Stored stored && !stored.repeated())
                .mapToObj(it -> CaseKey.of(((Intake.Taken) pieces.get(it).intake()).event()))
                .collect(Collectors.groupingBy(it -> it, Collectors.counting()));
    }

    private static void tell(List<Piece> block, List<Receipt> receipts, Watcher watcher) throws IOException {
        for (int i = 0; i < block.size(); i++) {
            watcher.received(block.get(i), receipts.get(i));
        }
    }
}
