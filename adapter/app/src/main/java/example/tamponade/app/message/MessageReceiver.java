package example.tamponade.app.message;

import ca.uhn.hl7v2.AcknowledgmentCode;
import example.tamponade.app.access.Caller;
import example.tamponade.app.intake.FaultLog;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.path.EventPath;
import example.tamponade.app.path.IntakeFullException;
import example.tamponade.app.path.LedgerFailedException;
import example.tamponade.app.path.Receipt;
import java.io.IOException;
import java.io.InputStream;
import java.time.Clock;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Takes messages and answers each. Nothing is acknowledged before the path of events has returned. Safe for use by several
 * threads.
 */
public final class MessageReceiver {

    private static final Logger LOG = LoggerFactory.getLogger(MessageReceiver.class);
    private static final int RADIX = 36;
    private static final int BEGINNING = 1 << 16;

    private final MessageReader reader;
    private final EventPath path;
    private final Clock clock;
    private final String start;
    private final AtomicLong answers = new AtomicLong();

    /** Reads messages in that format and hands their events to that path. */
    public MessageReceiver(MessageFormat format, EventPath path, Clock clock) {
        this.reader = format.reader();
        this.path = path;
        this.clock = clock;
        this.start = Long.toString(clock.millis(), RADIX);
    }

    /**
     * What the sender is told.
     *
     * @param text the acknowledgements, one behind the other, for as many messages as came
     * @param failed whether a message could not be processed though nothing may be wrong in it: to be sent again later
     */
    public record Answer(String text, boolean failed) {}

    /** Takes what came in a block. */
    Answer take(Caller by, Frame frame) throws IOException {
        return frame.tooLong()
                ? new Answer(tooLong(frame), false)
                : take(by, frame.original().open());
    }

    // Of a block that is too long to be kept the beginning is enough to answer it.
    private String tooLong(Frame frame) {
        Original beginning = Original.of(frame.original().beginning(BEGINNING));
        OpenedMessage message = OpenedMessage.of(new RawMessage(1, true, beginning));
        return new Acknowledgement(AcknowledgmentCode.AR, message.header(), clock.instant(), nextControlId())
                .refused(new Reason(
                        ReasonCode.TOO_LONG,
                        "",
                        "the message has more than " + Original.LONGEST + " bytes; it is not kept",
                        "send fewer groups in each message"))
                .text();
    }

    /** Takes a transmission: one message, or several one behind the other. */
    public Answer take(Caller by, InputStream transmission) throws IOException {
        StringBuilder text = new StringBuilder();
        boolean failed = false;
        try (RawMessages messages = new RawMessages(transmission)) {
            RawMessage message = messages.next();
            if (message == null) {
                message = new RawMessage(1, false, Original.of(new byte[0]));
            }
            while (message != null) {
                Answer answer = answer(by, reader.read(message));
                text.append(answer.text());
                failed |= answer.failed();
                message = messages.next();
            }
        }
        return new Answer(text.toString(), failed);
    }

    private Answer answer(Caller by, ReadMessage message) {
        List<Receipt> receipts;
        try {
            receipts = path.take(by, message.pieces());
        } catch (RuntimeException e) {
            if (e instanceof IntakeFullException || e instanceof LedgerFailedException) {
                LOG.info("a message was not taken: {}", e.getMessage());
            } else {
                FaultLog.error(LOG, "a message was not taken; please report this", e);
            }
            String text = begin(AcknowledgmentCode.AR, message)
                    .failed("nothing need be wrong in it: send it again later")
                    .text();
            return new Answer(text, true);
        }
        boolean stored = receipts.stream().allMatch(Receipt.Stored.class::isInstance);
        AcknowledgmentCode taken = stored ? AcknowledgmentCode.AA : AcknowledgmentCode.AE;
        Acknowledgement answer = begin(message.rejected() ? AcknowledgmentCode.AR : taken, message);
        List<Reason> reasons = receipts.stream()
                .filter(Receipt.Refused.class::isInstance)
                .flatMap(it -> ((Receipt.Refused) it).reasons().stream())
                .toList();
        Reason.bounded(reasons).forEach(answer::refused);
        message.remarks().forEach(answer::remarked);
        return new Answer(answer.text(), false);
    }

    private Acknowledgement begin(AcknowledgmentCode code, ReadMessage to) {
        return new Acknowledgement(code, to.header(), clock.instant(), nextControlId());
    }

    private String nextControlId() {
        return start + "-" + Long.toString(answers.incrementAndGet(), RADIX);
    }
}
