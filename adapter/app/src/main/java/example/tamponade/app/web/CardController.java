package example.tamponade.app.web;

import example.tamponade.app.access.AccessEntry;
import example.tamponade.app.access.AccessLogWriter;
import example.tamponade.app.access.Caller;
import example.tamponade.app.cards.Card;
import example.tamponade.app.cards.WarningCards;
import example.tamponade.app.projection.CaseRecords;
import example.tamponade.app.search.RecordSearch;
import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.io.InputStream;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Shows the warnings that stand where a clinician has a mother's record open:
 * <a href="https://cds-hooks.hl7.org/2.0/">CDS Hooks 2.0</a>, hooks patient-view and encounter-discharge.
 */
@RestController
public class CardController {

    private static final int LONGEST = 1 << 20;
    private static final int MOST_OUTCOMES = 100;
    private static final String PATIENT = "patientId";

    // The hooks, by the ids of their services.
    private static final Map<String, String> HOOKS =
            Map.of("open-warnings", "patient-view", "open-warnings-at-discharge", "encounter-discharge");

    private final WarningCards cards;
    private final RecordSearch search;
    private final CaseRecords records;
    private final AccessLogWriter log;
    private final Clock clock;

    /** Makes these cards, and writes down what became of them. */
    public CardController(
            WarningCards cards, RecordSearch search, CaseRecords records, AccessLogWriter log, Clock clock) {
        this.log = log;
        this.clock = clock;
        this.cards = cards;
        this.search = search;
        this.records = records;
    }

    /** The services that there are. */
    @GetMapping(path = "/cds-services", produces = MediaType.APPLICATION_JSON_VALUE)
    Map<String, Object> services() {
        return Map.of(
                "services",
                HOOKS.entrySet().stream()
                        .sorted(Map.Entry.comparingByKey())
                        .map(it -> Map.of(
                                "id",
                                it.getKey(),
                                "hook",
                                it.getValue(),
                                "title",
                                "Warnings that stand",
                                "description",
                                "The warnings of a postpartum haemorrhage and its balloon that stand now. Decision support"
                                        + " for review by licensed clinicians; not a medical device."))
                        .toList());
    }

    /** The cards for whom the context names. */
    @PostMapping(path = "/cds-services/{id}", produces = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<?> cards(@PathVariable("id") String id, InputStream body, HttpServletRequest request)
            throws IOException {
        Caller caller = Caller.current();
        caller.scopes().demandSearch(List.of("Flag"));
        String hook = HOOKS.get(id);
        if (hook == null) {
            return unknown(id);
        }
        JsonNode asked;
        try {
            asked = JsonMapper.shared().readTree(body.readNBytes(LONGEST));
        } catch (JacksonException e) {
            return problem(
                    HttpStatus.BAD_REQUEST, "the request is no JSON; send what CDS Hooks 2.0 says, HTTP Request");
        }
        if (!asked.path("hook").asString("").equals(hook)) {
            return problem(HttpStatus.BAD_REQUEST, "hook: this service is for the hook " + hook);
        }
        String patient = asked.path("context").path(PATIENT).asString("").replaceFirst("^Patient/", "");
        if (patient.isEmpty()) {
            return problem(HttpStatus.BAD_REQUEST, "context.patientId: say whose record is open");
        }
        Optional<String> caseKey = search.caseKey("Patient", patient, caller.compartment());
        if (caseKey.isEmpty()) {
            return problem(
                    HttpStatus.NOT_FOUND,
                    "context.patientId: no mother of that id is on record here, so that nothing is known of her");
        }
        records.letTimePass(caseKey.get());
        List<Card> made = cards.of(caseKey.get(), server(request));
        return ResponseEntity.ok(Map.of("cards", made));
    }

    /** What became of cards; each is written down in the access log. */
    @PostMapping("/cds-services/{id}/feedback")
    ResponseEntity<?> feedback(@PathVariable("id") String id, InputStream body, HttpServletRequest request)
            throws IOException {
        if (!HOOKS.containsKey(id)) {
            return unknown(id);
        }
        List<String> outcomes = new ArrayList<>();
        try {
            for (JsonNode one :
                    JsonMapper.shared().readTree(body.readNBytes(LONGEST)).path("feedback")) {
                outcomes.add("card=" + UUID.fromString(one.path("card").asString("")) + "&outcome="
                        + (one.path("outcome").asString("").equals("accepted") ? "accepted" : "overridden"));
            }
        } catch (JacksonException | IllegalArgumentException e) {
            return problem(
                    HttpStatus.BAD_REQUEST,
                    "feedback: name each card by its uuid; send what CDS Hooks 2.0 says, Feedback");
        }
        if (outcomes.size() > MOST_OUTCOMES) {
            return problem(
                    HttpStatus.BAD_REQUEST,
                    "feedback: more than " + MOST_OUTCOMES + " cards; send them in several requests");
        }
        outcomes.forEach(it -> log.add(AccessEntry.of(
                clock.instant(),
                Caller.current(),
                request.getRemoteAddr(),
                AccessEntry.Action.EXECUTE,
                request.getRequestURI().substring(1),
                it,
                0)));
        return ResponseEntity.ok().build();
    }

    private static ResponseEntity<ProblemDetail> unknown(String id) {
        return problem(HttpStatus.NOT_FOUND, "no service '" + id + "'; GET /cds-services lists them");
    }

    private static String server(HttpServletRequest request) {
        return request.getRequestURL().toString().replaceFirst("/cds-services/.*", "");
    }

    private static ResponseEntity<ProblemDetail> problem(HttpStatus status, String words) {
        return ResponseEntity.of(ProblemDetail.forStatusAndDetail(status, words))
                .build();
    }
}
