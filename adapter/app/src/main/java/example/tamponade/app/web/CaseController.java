package example.tamponade.app.web;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.intake.CaseKey;
import example.tamponade.app.ledger.Ledger;
import example.tamponade.app.projection.CaseRecords;
import example.tamponade.app.record.ResourceRecord;
import example.tamponade.app.records.RecordParts;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.CaseId;
import java.util.List;
import java.util.Objects;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Resource;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

/** Serves the resources of a case. */
@RestController
public class CaseController {

    private static final MediaType FHIR_JSON = MediaType.parseMediaType("application/fhir+json");

    private final Ledger ledger;
    private final ResourceRecord record;
    private final CaseRecords records;
    private final RecordParts parts;

    /** Serves from that record. */
    public CaseController(Ledger ledger, ResourceRecord record, CaseRecords records, RecordParts parts) {
        this.ledger = ledger;
        this.record = record;
        this.records = records;
        this.parts = parts;
    }

    /** All cases in order, each as its facility and its number, as in its address. */
    @GetMapping(path = "/cases", produces = MediaType.APPLICATION_JSON_VALUE)
    List<String> cases() {
        return ledger.caseKeys().stream()
                .map(CaseKey::caseId)
                .filter(Objects::nonNull)
                .map(CaseId::toString)
                .toList();
    }

    /** The latest version of every resource of a case, warnings up to now included, as a collection, a document or a transaction. */
    @GetMapping("/cases/{facilityId}/{number}")
    ResponseEntity<String> ofCase(
            @PathVariable("facilityId") String facilityId,
            @PathVariable("number") String number,
            @RequestParam(name = "as", defaultValue = "collection") String as) {
        CaseId caseId = new CaseId(facilityId, number);
        String key = CaseKey.of(caseId);
        CaseFile file = records.letTimePass(key);
        List<Resource> resources = record.ofCase(key);
        if (resources.isEmpty()) {
            return plain(
                    HttpStatus.NOT_FOUND, absent(caseId, record.setAside(key).size()));
        }
        return switch (as) {
            case "collection" -> fhir(parts.bundles().collection(resources));
            case "document" -> fhir(parts.bundles().document(file, resources));
            case "transaction" -> fhir(parts.bundles().transaction(resources));
            default -> plain(HttpStatus.BAD_REQUEST, "no form '" + as + "'; use collection, document or transaction");
        };
    }

    private static String absent(CaseId caseId, int setAside) {
        return setAside == 0
                ? "no case " + caseId + "; GET /cases lists them"
                : "the adapter failed to put any event of the case " + caseId + " on record; GET /quarantine has its "
                        + setAside + " events with the reasons, please report them";
    }

    private static ResponseEntity<String> fhir(Bundle bundle) {
        return ResponseEntity.ok()
                .contentType(FHIR_JSON)
                .body(FhirContext.forR4Cached().newJsonParser().encodeResourceToString(bundle));
    }

    private static ResponseEntity<String> plain(HttpStatus status, String words) {
        return ResponseEntity.status(status).contentType(MediaType.TEXT_PLAIN).body(words);
    }
}
