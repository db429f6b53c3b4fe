package example.tamponade.app.web;

import ca.uhn.fhir.context.FhirContext;
import java.util.List;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Resource;
import org.springframework.http.HttpStatus;
import org.springframework.http.InvalidMediaTypeException;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;

/** Answers in FHIR: JSON is what there is, and what went wrong is an OperationOutcome. */
final class FhirAnswers {

    static final MediaType FHIR_JSON = MediaType.parseMediaType("application/fhir+json");

    private FhirAnswers() {}

    /** Whether who sent this Accept header takes FHIR in JSON; an empty one takes anything. */
    static boolean isTakenBy(String accept) {
        try {
            List<MediaType> types = MediaType.parseMediaTypes(accept);
            return types.isEmpty()
                    || types.stream().anyMatch(it -> it.includes(FHIR_JSON) || it.includes(MediaType.APPLICATION_JSON));
        } catch (InvalidMediaTypeException e) {
            return false;
        }
    }

    static ResponseEntity<String> notAcceptable() {
        return outcome(
                HttpStatus.NOT_ACCEPTABLE,
                OperationOutcome.IssueType.NOTSUPPORTED,
                "resources are given as application/fhir+json alone; ask for that, or leave Accept out");
    }

    /** What is well, and yet to be known. */
    static ResponseEntity<String> information(String words) {
        OperationOutcome outcome = new OperationOutcome();
        outcome.addIssue()
                .setSeverity(OperationOutcome.IssueSeverity.INFORMATION)
                .setCode(OperationOutcome.IssueType.INFORMATIONAL)
                .setDiagnostics(words);
        return of(HttpStatus.OK, outcome);
    }

    static ResponseEntity<String> outcome(HttpStatus status, OperationOutcome.IssueType code, String words) {
        OperationOutcome outcome = new OperationOutcome();
        outcome.addIssue()
                .setSeverity(OperationOutcome.IssueSeverity.ERROR)
                .setCode(code)
                .setDiagnostics(words);
        return of(status, outcome);
    }

    static ResponseEntity<String> of(HttpStatus status, Resource resource) {
        return ResponseEntity.status(status)
                .contentType(FHIR_JSON)
                .body(FhirContext.forR4Cached().newJsonParser().encodeResourceToString(resource));
    }
}
