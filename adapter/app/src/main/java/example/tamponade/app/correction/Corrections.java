package example.tamponade.app.correction;

import example.tamponade.app.access.Caller;
import example.tamponade.app.database.Instants;
import example.tamponade.app.formats.Formats;
import example.tamponade.app.intake.EventFormat;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.intake.TooLongToKeepException;
import example.tamponade.app.path.EventPath;
import example.tamponade.app.path.IntakeWriter;
import example.tamponade.app.path.Receipt;
import example.tamponade.app.quarantine.KeptBytes;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.app.quarantine.QuarantineState;
import example.tamponade.app.quarantine.QuarantineStep;
import example.tamponade.app.quarantine.WholeEntry;
import java.io.IOException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Takes corrections of what is in quarantine. */
public final class Corrections {

    private final Quarantine quarantine;
    private final Formats formats;
    private final EventPath path;
    private final Clock clock;

    /** Reads corrections in those formats and hands them to that path. */
    public Corrections(Quarantine quarantine, Formats formats, EventPath path, Clock clock) {
        this.quarantine = quarantine;
        this.formats = formats;
        this.path = path;
        this.clock = clock;
    }

    /**
     * Takes a correction as any input; it is taken wholly or not at all.
     *
     * @param by whose request it is
     * @param format the format it is in; null for the entry's own
     * @param who who sends it
     * @return the entry as it is now
     * @throws TooLongToKeepException when it is longer than an event may be
     * @throws NotCorrectableException when there is no such entry or it is not open any more
     */
    public WholeEntry correct(Caller by, UUID id, Original correction, @Nullable EventFormat format, String who)
            throws IOException {
        demandShortness(correction);
        WholeEntry entry = openEntry(id);
        List<Piece> pieces =
                pieces(correction, format == null ? formats.of(entry.entry().inFormat()) : format);
        List<Reason> reasons = refusals(pieces);
        if (reasons.isEmpty()) {
            List<Receipt> receipts = path.takeCorrection(by, pieces);
            reasons = receipts.stream()
                    .filter(Receipt.Refused.class::isInstance)
                    .flatMap(it -> ((Receipt.Refused) it).reasons().stream())
                    .toList();
        }
        boolean taken = reasons.isEmpty();
        return add(
                entry,
                new QuarantineStep(
                        Instants.text(clock.instant()),
                        who,
                        taken ? QuarantineStep.What.CORRECTION_TAKEN : QuarantineStep.What.CORRECTION_REFUSED,
                        taken ? events(pieces) : "",
                        KeptBytes.of(correction.bytes()),
                        reasons.stream().map(Reason::inJson).toList()),
                taken ? QuarantineState.TAKEN : QuarantineState.OPEN);
    }

    /**
     * Sets an entry aside: there is nothing to take.
     *
     * @param who who decides so
     * @param why why; kept in its history
     * @throws NotCorrectableException when there is no such entry or it is not open any more
     */
    public WholeEntry setAside(UUID id, String who, String why) {
        return add(
                openEntry(id),
                new QuarantineStep(
                        Instants.text(clock.instant()),
                        who,
                        QuarantineStep.What.SET_ASIDE,
                        why,
                        KeptBytes.NONE,
                        List.of()),
                QuarantineState.SET_ASIDE);
    }

    private static void demandShortness(Original correction) throws TooLongToKeepException {
        if (correction.tooLongForAnEvent()) {
            throw new TooLongToKeepException("the correction has " + correction.length() + " bytes, which is more than"
                    + " is kept of one; send only the piece that was refused");
        }
    }

    private WholeEntry openEntry(UUID id) {
        WholeEntry entry = quarantine
                .entry(id)
                .orElseThrow(() -> NotCorrectableException.unknown("nothing in quarantine has the id " + id));
        if (entry.entry().state() != QuarantineState.OPEN) {
            throw NotCorrectableException.moved(id + " is "
                    + entry.entry().state().code()
                    + " already; to change an event that was taken send an event that corrects it");
        }
        return entry;
    }

    private WholeEntry add(WholeEntry entry, QuarantineStep step, QuarantineState state) {
        if (!quarantine.add(entry, step, state)) {
            throw NotCorrectableException.moved(
                    "somebody else has just dealt with " + entry.entry().id() + "; look at it again");
        }
        return quarantine.entry(entry.entry().id()).orElseThrow();
    }

    private List<Piece> pieces(Original correction, EventFormat format) throws IOException {
        List<Piece> pieces = new ArrayList<>();
        try (Pieces read = format.open(correction.open())) {
            for (Piece piece = read.next();
                    piece != null && pieces.size() < IntakeWriter.COMMIT_SIZE;
                    piece = read.next()) {
                pieces.add(piece);
            }
        }
        return pieces;
    }

    private static List<Reason> refusals(List<Piece> pieces) {
        if (pieces.isEmpty()) {
            return List.of(new Reason(
                    ReasonCode.EMPTY_INPUT, "", "the correction holds no event", "send the whole event, corrected"));
        }
        return pieces.stream()
                .filter(it -> it.intake() instanceof Intake.Refused)
                .flatMap(it -> ((Intake.Refused) it.intake()).reasons().stream())
                .toList();
    }

    private static String events(List<Piece> pieces) {
        return pieces.stream()
                .map(it -> ((Intake.Taken) it.intake()).event().eventId().toString())
                .collect(Collectors.joining(" "));
    }
}
