package example.tamponade.app.rest;

import ca.uhn.fhir.rest.annotation.Operation;
import ca.uhn.fhir.rest.api.server.RequestDetails;
import jakarta.servlet.http.HttpServletResponse;

/** Bulk export of everything on record, or of all cases. */
public final class ExportOperations {

    private final ExportKickOff kickOff;

    /** Has exports taken there. */
    public ExportOperations(ExportKickOff kickOff) {
        this.kickOff = kickOff;
    }

    /** Everything on record. */
    @Operation(name = "$export", manualResponse = true, idempotent = true)
    public void ofSystem(RequestDetails request, HttpServletResponse response) {
        kickOff.ofSystem(request, response);
    }

    /** Everything of the cases. */
    @Operation(name = "$export", typeName = "Patient", manualResponse = true, idempotent = true)
    public void ofPatients(RequestDetails request, HttpServletResponse response) {
        kickOff.ofPatients(request, response);
    }
}
