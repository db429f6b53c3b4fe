package example.tamponade.app.operate;

import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.outbox.OutboxState;
import example.tamponade.app.quarantine.QuarantineState;
import example.tamponade.core.event.Coded;
import java.util.Arrays;
import java.util.Iterator;

/** What can be given for an option whose values are codes, as its help lists it. */
abstract class Codes implements Iterable<String> {

    private final Coded[] constants;

    private Codes(Coded... constants) {
        this.constants = constants;
    }

    @Override
    public Iterator<String> iterator() {
        return Arrays.stream(constants).map(Coded::code).iterator();
    }

    static final class States extends Codes {

        States() {
            super(QuarantineState.values());
        }
    }

    static final class Deliveries extends Codes {

        Deliveries() {
            super(OutboxState.values());
        }
    }

    static final class Formats extends Codes {

        Formats() {
            super(InputFormat.values());
        }
    }

    static final class Reasons extends Codes {

        Reasons() {
            super(ReasonCode.values());
        }
    }
}
