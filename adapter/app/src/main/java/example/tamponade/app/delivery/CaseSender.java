package example.tamponade.app.delivery;

import example.tamponade.app.outbox.DueCase;
import java.util.Optional;

/** Sends what is due of a case to one destination. */
interface CaseSender {

    /**
     * Delivers a case that was claimed, and gives it back.
     *
     * @return why the destination could not be asked; empty when it answered
     */
    Optional<Answer> deliver(DueCase due);
}
