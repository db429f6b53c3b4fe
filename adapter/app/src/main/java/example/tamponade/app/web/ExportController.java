package example.tamponade.app.web;

import example.tamponade.app.access.Caller;
import example.tamponade.app.export.ExportState;
import example.tamponade.app.export.Exports;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.springframework.core.io.FileSystemResource;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;

/**
 * Tells how exports stand and gives their files: <a href="https://hl7.org/fhir/uv/bulkdata/STU2/export.html">Bulk Data Access
 * 2.0.0</a>, status request, file request, delete request.
 */
@RestController
@RequestMapping("/exports/{id}")
public class ExportController {

    private static final MediaType NDJSON = MediaType.parseMediaType("application/fhir+ndjson");
    private static final int SECONDS = 1;

    private final Exports exports;

    /** Tells of those exports. */
    public ExportController(Exports exports) {
        this.exports = exports;
    }

    /** 202 while it is written, with how far it is; 200 with the manifest when it is done. */
    @GetMapping
    ResponseEntity<?> state(@PathVariable("id") String id) {
        ExportState state = exports.state(id, Caller.current());
        if (state == null) {
            return none();
        }
        if (state instanceof ExportState.Running running) {
            return ResponseEntity.accepted()
                    .header("X-Progress", running.progress())
                    .header(HttpHeaders.RETRY_AFTER, Integer.toString(SECONDS))
                    .build();
        }
        if (state instanceof ExportState.Done done) {
            return ResponseEntity.ok()
                    .contentType(MediaType.APPLICATION_JSON)
                    .header(
                            HttpHeaders.EXPIRES,
                            DateTimeFormatter.RFC_1123_DATE_TIME.format(
                                    done.expires().atOffset(ZoneOffset.UTC)))
                    .body(done.manifest());
        }
        return FhirAnswers.outcome(
                HttpStatus.INTERNAL_SERVER_ERROR,
                OperationOutcome.IssueType.EXCEPTION,
                ((ExportState.Failed) state).problem() + "; ask for it again, and report this when it fails again");
    }

    /** A file of resources of one type, one a line. */
    @GetMapping("/{file}")
    ResponseEntity<?> file(@PathVariable("id") String id, @PathVariable("file") String name) {
        Path file = exports.file(id, name, Caller.current());
        return file == null ? none() : ResponseEntity.ok().contentType(NDJSON).body(new FileSystemResource(file));
    }

    /** Stops it, or deletes its files. */
    @DeleteMapping
    ResponseEntity<?> delete(@PathVariable("id") String id) {
        return exports.delete(id, Caller.current()) ? ResponseEntity.accepted().build() : none();
    }

    private static ResponseEntity<?> none() {
        return FhirAnswers.outcome(
                HttpStatus.NOT_FOUND,
                OperationOutcome.IssueType.NOTFOUND,
                "no export there, or none any more; ask for one by GET /fhir/$export with Prefer: respond-async");
    }
}
