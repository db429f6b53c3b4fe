package example.tamponade.app.web;

import example.tamponade.app.access.MissingScopeException;
import example.tamponade.app.database.DatabaseGoneException;
import example.tamponade.app.intake.TooLongToKeepException;
import example.tamponade.app.intake.TooSlowException;
import example.tamponade.app.path.IntakeFullException;
import example.tamponade.app.path.LedgerFailedException;
import jakarta.servlet.http.HttpServletRequest;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.RestControllerAdvice;

/** Tells senders what kept their input from being taken, as problem details (RFC 9457). */
@RestControllerAdvice
public class IntakeProblems {

    static final String RETRY_AFTER = Long.toString(IntakeFullException.TRY_AGAIN_AFTER.toSeconds());

    @ExceptionHandler
    ResponseEntity<ProblemDetail> full(IntakeFullException e) {
        return later(HttpStatus.TOO_MANY_REQUESTS, e);
    }

    @ExceptionHandler
    ResponseEntity<ProblemDetail> failed(LedgerFailedException e) {
        return later(status(e), e);
    }

    @ExceptionHandler
    ResponseEntity<ProblemDetail> unknown(UnknownFormatException e) {
        ProblemDetail problem =
                ProblemDetail.forStatusAndDetail(HttpStatus.UNSUPPORTED_MEDIA_TYPE, String.valueOf(e.getMessage()));
        return ResponseEntity.of(problem).build();
    }

    @ExceptionHandler
    ResponseEntity<ProblemDetail> tooLong(TooLongToKeepException e) {
        return ResponseEntity.of(
                        ProblemDetail.forStatusAndDetail(HttpStatus.CONTENT_TOO_LARGE, String.valueOf(e.getMessage())))
                .build();
    }

    @ExceptionHandler
    ResponseEntity<ProblemDetail> tooSlow(TooSlowException e, HttpServletRequest request) {
        ProblemDetail problem =
                ProblemDetail.forStatusAndDetail(HttpStatus.REQUEST_TIMEOUT, String.valueOf(e.getMessage()));
        // Where nothing came at all the server below has given the request up, and asks again what to answer.
        request.setAttribute(ProblemController.ANSWER, problem);
        return ResponseEntity.of(problem).build();
    }

    @ExceptionHandler
    ResponseEntity<ProblemDetail> gone(DatabaseGoneException e) {
        return later(HttpStatus.SERVICE_UNAVAILABLE, e);
    }

    @ExceptionHandler
    ResponseEntity<String> missing(MissingScopeException e) {
        return FhirAnswers.outcome(
                HttpStatus.FORBIDDEN, OperationOutcome.IssueType.FORBIDDEN, String.valueOf(e.getMessage()));
    }

    static HttpStatus status(LedgerFailedException e) {
        return e.full() ? HttpStatus.INSUFFICIENT_STORAGE : HttpStatus.SERVICE_UNAVAILABLE;
    }

    private static ResponseEntity<ProblemDetail> later(HttpStatus status, RuntimeException problem) {
        return ResponseEntity.status(status)
                .header(HttpHeaders.RETRY_AFTER, RETRY_AFTER)
                .body(ProblemDetail.forStatusAndDetail(status, String.valueOf(problem.getMessage())));
    }
}
