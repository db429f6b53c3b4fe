package example.tamponade.app.rest;

import ca.uhn.fhir.context.FhirContext;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.springframework.http.HttpHeaders;

/** Answers a request whose turn did not come. */
final class Busy {

    private Busy() {}

    static void answer(HttpServletResponse response, int seconds) throws IOException {
        OperationOutcome outcome = new OperationOutcome();
        outcome.addIssue()
                .setSeverity(OperationOutcome.IssueSeverity.ERROR)
                .setCode(OperationOutcome.IssueType.THROTTLED)
                .setDiagnostics("too much is asked at the same time; ask again in " + seconds + " s");
        response.setStatus(HttpServletResponse.SC_SERVICE_UNAVAILABLE);
        response.setHeader(HttpHeaders.RETRY_AFTER, Integer.toString(seconds));
        response.setContentType("application/fhir+json;charset=UTF-8");
        response.getOutputStream()
                .write(FhirContext.forR4Cached()
                        .newJsonParser()
                        .encodeResourceToString(outcome)
                        .getBytes(StandardCharsets.UTF_8));
    }
}
