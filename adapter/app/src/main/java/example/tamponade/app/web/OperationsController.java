package example.tamponade.app.web;

import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.outbox.DestinationState;
import example.tamponade.app.outbox.OutboxEntry;
import example.tamponade.app.outbox.OutboxState;
import example.tamponade.app.outbox.OutboxStates;
import example.tamponade.app.path.Projector;
import example.tamponade.app.quarantine.Quarantine;
import example.tamponade.app.quarantine.QuarantineFilter;
import example.tamponade.app.quarantine.QuarantineState;
import example.tamponade.app.quarantine.WholeEntry;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.summary.PageTemplate;
import example.tamponade.fhir.mapping.CaseMapper;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;

/** Pages for who looks after the adapter: how far the record is, what was refused, and what is delivered where. */
@RestController
public class OperationsController {

    private static final int MOST = 100;
    private static final MediaType HTML = MediaType.parseMediaType("text/html;charset=UTF-8");

    // Its scripts and styles are this server's own, and it speaks to this server alone.
    private static final String POLICY = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self';"
            + " base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
    private static final String LOOK_AGAIN_SECONDS = "30";

    private final Ledger ledger;
    private final ResourceRecord record;
    private final Projector projector;
    private final Quarantine quarantine;
    private final OutboxStates deliveries;

    /** Tells of these. */
    public OperationsController(
            Ledger ledger, ResourceRecord record, Projector projector, Quarantine quarantine, OutboxStates deliveries) {
        this.ledger = ledger;
        this.record = record;
        this.projector = projector;
        this.quarantine = quarantine;
        this.deliveries = deliveries;
    }

    /** How everything stands. */
    @GetMapping("/operations")
    ResponseEntity<String> overview() {
        List<String> behind = List.copyOf(ledger.behindCheckpoint());
        List<DestinationState> destinations = deliveries.states();
        QuarantineFilter open = new QuarantineFilter(QuarantineState.OPEN, null, null, null, null, MOST);
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("caution", CaseMapper.CAUTION);
        values.put("events", ledger.size());
        values.put("eventsBehind", projector.behind());
        values.put("oldestBehind", projector.oldest().toSeconds());
        values.put("casesBehind", behind.subList(0, Math.min(behind.size(), MOST)));
        values.put("countBehind", behind.size());
        values.put("setAside", record.countSetAside());
        values.put("refused", quarantine.entries(open));
        values.put("countRefused", quarantine.count(QuarantineState.OPEN));
        values.put("destinations", destinations);
        values.put(
                "parked",
                destinations.stream().flatMap(it -> parked(it).stream()).toList());
        return page().header("Refresh", LOOK_AGAIN_SECONDS).body(PageTemplate.HTML.of("operations.html", values));
    }

    private List<OutboxEntry> parked(DestinationState destination) {
        return destination.parkedCases() == 0
                ? List.of()
                : deliveries.entries(destination.name(), OutboxState.PARKED, MOST);
    }

    /** One input that was refused, to correct it or to set it aside. */
    @GetMapping("/operations/refused/{id}")
    ResponseEntity<String> refused(@PathVariable("id") UUID id) {
        Optional<WholeEntry> found = quarantine.entry(id);
        return found.map(it -> page().body(PageTemplate.HTML.of("refused.html", values(it))))
                .orElseGet(() -> ResponseEntity.notFound().build());
    }

    private static Map<String, Object> values(WholeEntry entry) {
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("caution", CaseMapper.CAUTION);
        values.put("entry", entry.entry());
        values.put("steps", entry.steps());
        values.put("content", entry.content().content());
        values.put("isText", entry.content().encoding().equals("text"));
        values.put("isOpen", entry.entry().state() == QuarantineState.OPEN);
        return values;
    }

    private static ResponseEntity.BodyBuilder page() {
        return ResponseEntity.ok().contentType(HTML).header("Content-Security-Policy", POLICY);
    }
}
