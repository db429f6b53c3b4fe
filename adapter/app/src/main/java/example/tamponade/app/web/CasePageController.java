package example.tamponade.app.web;

import example.tamponade.app.access.Caller;
import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.projection.CaseRecords;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.search.RecordSearch;
import example.tamponade.app.summary.CaseList;
import example.tamponade.app.summary.SummaryBuilder;
import example.tamponade.app.summary.SummaryPage;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.CaseId;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.util.List;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;

/** A case on one page, for a clinician: how it stands now, its warnings, and its course as charts and tables. */
@RestController
public class CasePageController {

    private static final MediaType HTML = MediaType.parseMediaType("text/html;charset=UTF-8");

    // Its scripts and styles are this server's own; nothing is loaded from elsewhere, and nothing sent.
    private static final String POLICY =
            "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; base-uri 'none';"
                    + " frame-ancestors 'none'";

    // A case that is open goes on.
    private static final String LOOK_AGAIN_SECONDS = "60";

    private final Ledger ledger;
    private final CaseRecords records;
    private final ResourceRecord record;
    private final RecordSearch search;
    private final CaseList cases;
    private final SummaryBuilder builder;
    private final Clock clock;

    /** Draws pages of that record. */
    public CasePageController(
            Ledger ledger,
            CaseRecords records,
            ResourceRecord record,
            RecordSearch search,
            SummaryBuilder builder,
            Clock clock) {
        this.ledger = ledger;
        this.cases = new CaseList(search);
        this.records = records;
        this.record = record;
        this.search = search;
        this.builder = builder;
        this.clock = clock;
    }

    /** The cases, each with a link to its page. */
    @GetMapping("/case")
    ResponseEntity<String> list() {
        Caller caller = Caller.current();
        caller.scopes().demandEverything();
        List<String> keys = search.seen(ledger.caseKeys(), caller.compartment()).stream()
                .filter(it -> CaseKey.caseId(it) != null)
                .toList();
        return ResponseEntity.ok()
                .contentType(HTML)
                .header("Content-Security-Policy", POLICY)
                .header("Refresh", LOOK_AGAIN_SECONDS)
                .body(SummaryPage.ofCases(cases.rows(keys), records.eventsBehind()));
    }

    /** The page of a case as it stands now, warnings that time has brought included. */
    @GetMapping("/case/{facilityId}/{number}")
    ResponseEntity<String> page(@PathVariable("facilityId") String facilityId, @PathVariable("number") String number) {
        Caller caller = Caller.current();
        caller.scopes().demandEverything();
        String key = CaseKey.of(new CaseId(facilityId, number));
        CaseFile file = search.seen(List.of(key), caller.compartment()).isEmpty() ? null : records.letTimePass(key);
        if (file == null || file.entries().isEmpty()) {
            return FhirAnswers.outcome(
                    HttpStatus.NOT_FOUND,
                    OperationOutcome.IssueType.NOTFOUND,
                    "no case " + facilityId + "/" + number + " with an event that stands; GET /cases lists them");
        }
        OffsetDateTime now = SummaryBuilder.timeOf(file, clock.instant());
        ResponseEntity.BodyBuilder page =
                ResponseEntity.ok().contentType(HTML).header("Content-Security-Policy", POLICY);
        if (file.closedAt() == null) {
            page.header("Refresh", LOOK_AGAIN_SECONDS);
        }
        return page.body(SummaryPage.HTML.of(
                builder.summary(file, record.setAside(key).size(), now), builder.course(file, now)));
    }
}
