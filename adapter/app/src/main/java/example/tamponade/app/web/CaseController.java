package example.tamponade.app.web;

import example.tamponade.app.access.Caller;
import example.tamponade.app.access.Role;
import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.projection.CaseRecords;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.records.RecordParts;
import example.tamponade.app.search.RecordSearch;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.CaseId;
import example.tamponade.fhir.bundle.CaseView;
import example.tamponade.fhir.bundle.DocumentPage;
import example.tamponade.fhir.bundle.DocumentPdf;
import example.tamponade.fhir.bundle.UnprintableException;
import example.tamponade.fhir.pseudonym.Pseudonymiser;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

/** Serves the resources of cases, and of facilities. */
@RestController
public class CaseController {

    private static final String PAGE = "page";
    private static final String PDF = "pdf";
    private static final Set<String> OF_DOCUMENTS = Set.of("document", PAGE, PDF);
    private static final MediaType HTML = MediaType.parseMediaType("text/html;charset=UTF-8");

    // The page brings its own look along; it runs nothing and loads nothing.
    private static final String PAGE_POLICY = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'";

    private final Ledger ledger;
    private final ResourceRecord record;
    private final CaseRecords records;
    private final RecordParts parts;
    private final RecordSearch search;
    private final @Nullable Pseudonymiser pseudonymiser;

    /**
     * Serves from that record.
     *
     * @param pseudonymiser makes the pseudonymised form; null: there is none
     */
    public CaseController(
            Ledger ledger,
            ResourceRecord record,
            CaseRecords records,
            RecordParts parts,
            RecordSearch search,
            @Nullable Pseudonymiser pseudonymiser) {
        this.pseudonymiser = pseudonymiser;
        this.ledger = ledger;
        this.search = search;
        this.record = record;
        this.records = records;
        this.parts = parts;
    }

    /** All cases in order, each as its facility and its number, as in its address. */
    @GetMapping(path = "/cases", produces = MediaType.APPLICATION_JSON_VALUE)
    List<String> cases() {
        return seen().stream()
                .map(CaseKey::caseId)
                .filter(Objects::nonNull)
                .map(CaseId::toString)
                .toList();
    }

    /** The facilities with events of their own, in order. */
    @GetMapping(path = "/facilities", produces = MediaType.APPLICATION_JSON_VALUE)
    List<String> facilities() {
        return seen().stream().map(CaseKey::facilityId).filter(Objects::nonNull).toList();
    }

    private List<String> seen() {
        Caller caller = Caller.current();
        caller.scopes().demandEverything();
        return search.seen(ledger.caseKeys(), caller.compartment());
    }

    /**
     * The latest version of every resource of a case, or of those of a view, warnings up to now included, as a collection,
     * a document or a transaction.
     */
    @GetMapping("/cases/{facilityId}/{number}")
    ResponseEntity<?> ofCase(
            @PathVariable("facilityId") String facilityId,
            @PathVariable("number") String number,
            @RequestParam(name = "as", defaultValue = "collection") String as,
            @RequestParam(name = "view", defaultValue = "full") String view,
            @RequestParam(name = "pseudonymised", defaultValue = "false") boolean pseudonymised,
            @RequestHeader(name = HttpHeaders.ACCEPT, defaultValue = "") String accept) {
        CaseView chosen = Arrays.stream(CaseView.values())
                .filter(it -> it.code().equals(view))
                .findFirst()
                .orElse(null);
        if (chosen == null) {
            return noForm("no view '" + view + "'; use full, course or handover");
        }
        CaseId caseId = new CaseId(facilityId, number);
        return answer(CaseKey.of(caseId), "case " + caseId, "GET /cases lists them", as, chosen, pseudonymised, accept);
    }

    /** What a facility's own events, those of no case, have brought, as a collection or a transaction. */
    @GetMapping("/facilities/{facilityId}")
    ResponseEntity<?> ofFacility(
            @PathVariable("facilityId") String facilityId,
            @RequestParam(name = "as", defaultValue = "collection") String as,
            @RequestHeader(name = HttpHeaders.ACCEPT, defaultValue = "") String accept) {
        return answer(
                CaseKey.ofFacility(facilityId),
                "facility " + facilityId + " with events of its own",
                "GET /facilities lists them",
                as,
                CaseView.FULL,
                false,
                accept);
    }

    private ResponseEntity<?> answer(
            String key, String what, String remedy, String as, CaseView view, boolean pseudonymised, String accept) {
        if (!as.equals(PAGE) && !as.equals(PDF) && !FhirAnswers.isTakenBy(accept)) {
            return FhirAnswers.notAcceptable();
        }
        if (pseudonymised && pseudonymiser == null) {
            return noForm("no pseudonymised form: the server has no key of pseudonyms; set tamponade.pseudonyms");
        }
        Caller caller = Caller.current();
        if (!pseudonymised && caller.is(Role.AUDITOR) && !caller.is(Role.READER)) {
            return FhirAnswers.outcome(
                    HttpStatus.FORBIDDEN,
                    OperationOutcome.IssueType.FORBIDDEN,
                    "an auditor reads the pseudonymised form alone: add pseudonymised=true");
        }
        if (!pseudonymised || !caller.is(Role.AUDITOR)) {
            caller.scopes().demandEverything();
        }
        // What somebody may not see is not there for him.
        if (search.seen(List.of(key), caller.compartment()).isEmpty()) {
            return FhirAnswers.outcome(
                    HttpStatus.NOT_FOUND, OperationOutcome.IssueType.NOTFOUND, "no " + what + "; " + remedy);
        }
        CaseFile file = records.letTimePass(key);
        List<Resource> onRecord = record.ofCase(key);
        if (onRecord.isEmpty()) {
            return nothing(key, what, remedy);
        }
        if (pseudonymised && pseudonymiser != null) {
            return pseudonymised(pseudonymiser, key, file, as, view, onRecord);
        }
        List<Resource> resources = view == CaseView.FULL && !OF_DOCUMENTS.contains(as)
                ? onRecord
                : parts.bundles().view(view, onRecord);
        return switch (as) {
            case "collection" -> FhirAnswers.of(HttpStatus.OK, parts.bundles().collection(resources));
            case "transaction" -> FhirAnswers.of(HttpStatus.OK, parts.bundles().transaction(file, resources));
            case "document", PAGE, PDF ->
                file.isOfFacility()
                        ? noForm("a facility has no document; use collection or transaction")
                        : document(as, parts.bundles().document(file, view, resources));
            default -> noForm("no form '" + as + "'; use collection, document, transaction, page or pdf");
        };
    }

    private static ResponseEntity<?> document(String as, Bundle document) {
        if (as.equals(PDF)) {
            try {
                return ResponseEntity.ok()
                        .contentType(MediaType.APPLICATION_PDF)
                        .body(DocumentPdf.of(document));
            } catch (UnprintableException e) {
                return noForm(e.getMessage() + "; ?as=page gives it");
            }
        }
        return as.equals(PAGE)
                ? ResponseEntity.ok()
                        .contentType(HTML)
                        .header("Content-Security-Policy", PAGE_POLICY)
                        .body(DocumentPage.of(document))
                : FhirAnswers.of(HttpStatus.OK, document);
    }

    private ResponseEntity<String> pseudonymised(
            Pseudonymiser pseudonymiser, String key, CaseFile file, String as, CaseView view, List<Resource> onRecord) {
        onRecord.forEach(it -> it.setId(it.getIdPart()));
        List<Resource> made = pseudonymiser.of(key, onRecord).of(parts.bundles().view(view, onRecord));
        return switch (as) {
            case "collection" -> FhirAnswers.of(HttpStatus.OK, parts.bundles().collection(made));
            case "transaction" -> FhirAnswers.of(HttpStatus.OK, parts.bundles().puts(made, Map.of()));
            case "document" ->
                FhirAnswers.of(HttpStatus.OK, parts.bundles().pseudonymised(file, view, onRecord, pseudonymiser));
            default -> noForm("no form '" + as + "'; use collection, document or transaction");
        };
    }

    private ResponseEntity<String> nothing(String key, String what, String remedy) {
        int setAside = record.setAside(key).size();
        if (setAside == 0 && !ledger.entries(key, 0, Long.MAX_VALUE).isEmpty()) {
            return FhirAnswers.information(
                    "nothing is on record of the " + what + " yet; its events withdraw others that have not come");
        }
        return FhirAnswers.outcome(
                HttpStatus.NOT_FOUND,
                OperationOutcome.IssueType.NOTFOUND,
                setAside == 0 ? "no " + what + "; " + remedy : notOnRecord(what, setAside));
    }

    private static ResponseEntity<String> noForm(String words) {
        return FhirAnswers.outcome(HttpStatus.BAD_REQUEST, OperationOutcome.IssueType.INVALID, words);
    }

    private static String notOnRecord(String what, int setAside) {
        return "the adapter failed to put any event of the " + what + " on record; GET /quarantine has its " + setAside
                + " events with the reasons, please report them";
    }
}
