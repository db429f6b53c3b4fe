package example.tamponade.app.web;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.access.Caller;
import example.tamponade.app.formats.Formats;
import example.tamponade.app.intake.EventFormat;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.Original;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Reason;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.app.intake.TooLongToKeepException;
import example.tamponade.app.intake.TooSlowException;
import example.tamponade.app.path.EventPath;
import example.tamponade.app.path.LedgerFailedException;
import example.tamponade.app.path.Receipt;
import example.tamponade.app.records.RecordParts;
import example.tamponade.fhir.refusal.Refusal;
import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.io.InputStream;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RestController;

/** Takes bedside events, one or many, in any of the formats. */
@RestController
public class EventController {

    private final EventPath path;
    private final Formats formats;
    private final RunningInputs inputs;
    private final RecordParts parts;

    /** Reads those formats and hands what they hold to that path. */
    public EventController(EventPath path, Formats formats, RunningInputs inputs, RecordParts parts) {
        this.path = path;
        this.formats = formats;
        this.inputs = inputs;
        this.parts = parts;
    }

    /**
     * One event in JSON: 201 stored, 200 stored before, 403 of a facility that the sender may not send for, 409 another event
     * has its id, 422 refused with every reason.
     */
    @PostMapping(path = "/events", consumes = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<?> one(InputStream body) throws IOException {
        Original original = Original.read(body);
        Piece piece = new Piece(
                InputFormat.EVENT, "the event", original, formats.reader().read(original));
        Receipt receipt = path.take(Caller.current(), List.of(piece)).get(0);
        if (receipt instanceof Receipt.Stored stored) {
            return ResponseEntity.status(stored.repeated() ? HttpStatus.OK : HttpStatus.CREATED)
                    .body(stored);
        }
        Receipt.Refused refused = (Receipt.Refused) receipt;
        return ResponseEntity.status(status(refused.reasons().get(0).code()))
                .header(HttpHeaders.LOCATION, "/quarantine/" + refused.quarantineId())
                .contentType(FhirAnswers.FHIR_JSON)
                .body(outcome(refused.reasons()));
    }

    private static HttpStatus status(ReasonCode code) {
        return switch (code) {
            case CONFLICT -> HttpStatus.CONFLICT;
            case NOT_PERMITTED -> HttpStatus.FORBIDDEN;
            default -> HttpStatus.UNPROCESSABLE_CONTENT;
        };
    }

    /**
     * An input of several pieces, each taken or refused for itself: 200 with what became of them, 422 when all were
     * refused.
     */
    @PostMapping(path = "/events")
    ResponseEntity<Map<String, Object>> several(
            HttpServletRequest request,
            InputStream body,
            @RequestHeader(name = HttpHeaders.CONTENT_TYPE, defaultValue = "") String contentType)
            throws IOException {
        EventFormat format = formats.ofMediaType(contentType)
                .orElseThrow(() -> new UnknownFormatException(contentType, formats.mediaTypes()));
        try (RunningInput input = inputs.begin(body)) {
            try {
                path.takeAll(Caller.current(), format.open(input.body()), input::received);
            } catch (InputTooLongException | TooLongToKeepException e) {
                return answer(HttpStatus.CONTENT_TOO_LARGE, input, e.getMessage());
            } catch (TooSlowException e) {
                ResponseEntity<Map<String, Object>> answer = answer(HttpStatus.REQUEST_TIMEOUT, input, e.getMessage());
                request.setAttribute(ProblemController.ANSWER, answer.getBody());
                return answer;
            } catch (LedgerFailedException e) {
                return answer(IntakeProblems.status(e), input, e.getMessage());
            }
            return answer(input.onlyRefusals() ? HttpStatus.UNPROCESSABLE_CONTENT : HttpStatus.OK, input, null);
        }
    }

    // When an input breaks off, what was acknowledged before stands; the sender is told both.
    private static ResponseEntity<Map<String, Object>> answer(
            HttpStatus status, RunningInput input, @Nullable String brokenOff) {
        Map<String, Object> answer = new LinkedHashMap<>(input.inJson());
        if (brokenOff != null) {
            answer.put("brokenOff", brokenOff);
        }
        ResponseEntity.BodyBuilder response = ResponseEntity.status(status);
        if (status.is5xxServerError()) {
            response.header(HttpHeaders.RETRY_AFTER, IntakeProblems.RETRY_AFTER);
        }
        return response.body(answer);
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
