package example.tamponade.app.web;

import example.tamponade.app.database.Database;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.path.IntakeWriter;
import example.tamponade.app.path.Projector;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.app.quarantine.QuarantineState;
import example.tamponade.app.record.ResourceRecord;
import java.util.LinkedHashMap;
import java.util.Map;
import org.springframework.http.MediaType;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;

/** Tells how busy intake is. */
@RestController
public class IntakeController {

    private final Database database;
    private final Ledger ledger;
    private final ResourceRecord record;
    private final Quarantine quarantine;
    private final IntakeWriter writer;
    private final RunningInputs inputs;
    private final Projector projector;

    /** Tells of these. */
    public IntakeController(
            Database database,
            Ledger ledger,
            ResourceRecord record,
            Quarantine quarantine,
            IntakeWriter writer,
            RunningInputs inputs,
            Projector projector) {
        this.database = database;
        this.ledger = ledger;
        this.record = record;
        this.quarantine = quarantine;
        this.writer = writer;
        this.inputs = inputs;
        this.projector = projector;
    }

    /**
     * How many events there are, how many cases are not on record yet up to their last event, how many events the adapter
     * failed to put on record, and how much is open in quarantine.
     */
    @GetMapping(path = "/ledger", produces = MediaType.APPLICATION_JSON_VALUE)
    Map<String, Object> ledger() {
        database.demandSameFiles();
        Map<String, Object> answer = new LinkedHashMap<>();
        answer.put("events", ledger.size());
        answer.put("casesBehind", ledger.behindCheckpoint().size());
        answer.put("eventsSetAside", record.countSetAside());
        answer.put("openInQuarantine", quarantine.count(QuarantineState.OPEN));
        return answer;
    }

    /**
     * How many pieces wait to be written down and may wait, how many events are acknowledged and not on record yet, for how
     * long the oldest of them is so, and how far each input has come. It does not ask the database,
     * so that it answers when that does not.
     */
    @GetMapping(path = "/intake", produces = MediaType.APPLICATION_JSON_VALUE)
    Map<String, Object> intake() {
        Map<String, Object> answer = new LinkedHashMap<>();
        answer.put("waiting", writer.waitingPieces());
        answer.put("mayWait", writer.capacity());
        answer.put("behindRecord", projector.behind());
        answer.put("oldestBehindRecordSeconds", projector.oldest().toSeconds());
        answer.put("inputs", inputs.progress());
        return answer;
    }
}
