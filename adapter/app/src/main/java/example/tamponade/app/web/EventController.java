package example.tamponade.app.web;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.intake.EventLineFormat;
import example.tamponade.app.intake.EventReader;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Pieces;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.path.EventPath;
import example.tamponade.app.path.Receipt;
import example.tamponade.app.records.RecordParts;
import example.tamponade.fhir.refusal.Refusal;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RestController;

/** Takes bedside events. */
@RestController
public class EventController {

    private static final String FHIR_JSON = "application/fhir+json";
    private static final String NDJSON = "application/x-ndjson";

    private final EventPath path;
    private final EventLineFormat lines;
    private final RecordParts parts;

    /** Reads lines in that format and hands events to that path. */
    public EventController(EventPath path, EventLineFormat lines, RecordParts parts) {
        this.path = path;
        this.lines = lines;
        this.parts = parts;
    }

    /** One event: 201 stored, 200 stored before, 409 another event has its id, 422 refused with every reason. */
    @PostMapping(path = "/events", consumes = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<?> one(InputStream body) throws IOException {
        Receipt receipt = path.take(body.readNBytes(EventReader.MAX_BYTES + 1));
        if (receipt instanceof Receipt.Stored stored) {
            HttpStatus status = stored.repeated() ? HttpStatus.OK : HttpStatus.CREATED;
            return ResponseEntity.status(status).body(stored);
        }
        List<Reason> reasons = ((Receipt.Refused) receipt).reasons();
        boolean conflict = reasons.get(0).code() == ReasonCode.CONFLICT;
        return ResponseEntity.status(conflict ? HttpStatus.CONFLICT : HttpStatus.UNPROCESSABLE_CONTENT)
                .contentType(MediaType.parseMediaType(FHIR_JSON))
                .body(outcome(reasons));
    }

    /** Several events, one a line: 200 with what became of them; each is taken or refused for itself. */
    @PostMapping(path = "/events", consumes = NDJSON)
    Map<String, Object> several(InputStream body) throws IOException {
        long stored = 0;
        long repeated = 0;
        List<Map<String, Object>> refused = new ArrayList<>();
        try (Pieces pieces = lines.open(body)) {
            for (Piece piece = pieces.next(); piece != null; piece = pieces.next()) {
                Receipt receipt = path.take(List.of(piece)).get(0);
                if (receipt instanceof Receipt.Stored one) {
                    stored += one.repeated() ? 0 : 1;
                    repeated += one.repeated() ? 1 : 0;
                } else if (receipt instanceof Receipt.Refused one) {
                    refused.add(refusedPiece(piece, one.reasons()));
                }
            }
        }
        Map<String, Object> answer = new LinkedHashMap<>();
        answer.put("stored", stored);
        answer.put("repeated", repeated);
        answer.put("refused", refused);
        return answer;
    }

    private static Map<String, Object> refusedPiece(Piece piece, List<Reason> reasons) {
        Map<String, Object> refused = new LinkedHashMap<>();
        refused.put("place", piece.place());
        refused.put("reasons", reasons.stream().map(Reason::inJson).toList());
        return refused;
    }

    private String outcome(List<Reason> reasons) {
        List<Refusal> refusals = reasons.stream()
                .map(it -> new Refusal(
                        it.code().code(), expression(it.path()), it.message(), it.remedy(), Refusal.Severity.ERROR))
                .toList();
        return FhirContext.forR4Cached()
                .newJsonParser()
                .encodeResourceToString(parts.refusals().toOutcome(refusals));
    }

    // A JSON pointer as a path that FHIR's expression can hold: /data/babies/0/outcome is data.babies[0].outcome.
    private static String expression(String pointer) {
        String dotted = pointer.replaceAll("/(\\d+)(?=/|$)", "[$1]").replace('/', '.');
        return dotted.isEmpty() ? "$this" : dotted.substring(1);
    }
}
