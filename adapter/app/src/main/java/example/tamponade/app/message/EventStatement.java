package example.tamponade.app.message;

import example.tamponade.app.intake.EventAssembly;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.intake.StatedEvent;
import java.util.ArrayList;
import java.util.List;

/** What a group states, and what is wrong in it already as a message. */
final class EventStatement {

    private static final int VALUE = 5;
    private static final int UNIT = 6;

    private final StatedEvent event;
    private final List<Reason> refusals = new ArrayList<>();

    EventStatement(MessagePlace place) {
        event = new StatedEvent(place.text());
    }

    void state(String path, String text, MessagePlace place) {
        event.with(path, text, place.text());
    }

    void state(String path, String text, String unit, MessagePlace place) {
        event.with(path, text, unit.isEmpty() ? null : unit, place.text());
    }

    void stateEmptyList(String path, MessagePlace place) {
        event.withEmptyList(path, place.text());
    }

    /** States a time or a date; when it could not be read it is refused. */
    void state(String path, MessageTimes.Read read, MessagePlace place) {
        if (read.refusal() == null) {
            state(path, read.text(), place);
        } else {
            refuse(path, read.text(), read.refusal(), place);
        }
    }

    /** Refuses what a property says. */
    void refuse(String path, String text, ReasonCode code, String message, String remedy, MessagePlace place) {
        refuse(path, text, new Reason(code, path, message, remedy), place);
    }

    void refuse(String path, String text, Reason refusal, MessagePlace place) {
        event.withUnreadable(path, text, refusal, place.text());
    }

    /** Refuses what is no property of an event. */
    void refuse(ReasonCode code, String message, String remedy, MessagePlace place) {
        refuse(new Reason(code, "", message, remedy).at(place.text()));
    }

    void refuse(Reason refusal) {
        refusals.add(refusal);
    }

    boolean states(String path) {
        return event.states(path);
    }

    /** The event, or every reason against it. */
    Intake read(EventAssembly assembly, Original original) {
        Intake read = assembly.read(event, original);
        List<Reason> all = new ArrayList<>(refusals);
        if (read instanceof Intake.Refused refused) {
            refused.reasons().stream().map(EventStatement::atUnit).forEach(all::add);
        }
        return all.isEmpty() ? read : new Intake.Refused(all);
    }

    // A value and its unit are one property of the event, but two fields of the message.
    private static Reason atUnit(Reason reason) {
        MessagePlace place = MessagePlace.read(reason.place());
        return place != null
                        && place.segment().equals("OBX")
                        && place.field() == VALUE
                        && reason.code() == ReasonCode.WRONG_UNIT
                        && !reason.path().equals("/data/unit")
                ? reason.at(place.field(UNIT).text())
                : reason;
    }
}
