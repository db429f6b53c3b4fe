package example.tamponade.app.web;

import example.tamponade.app.access.Role;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.Arrays;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.security.authentication.AuthenticationServiceException;
import org.springframework.security.core.AuthenticationException;
import org.springframework.security.oauth2.core.OAuth2AuthenticationException;
import org.springframework.security.web.AuthenticationEntryPoint;
import org.springframework.security.web.access.AccessDeniedHandler;
import org.springframework.security.web.firewall.RequestRejectedException;

/** Tells those who are not let in why, and what would let them in; readers of FHIR by an OperationOutcome. */
public final class AccessAnswers implements AuthenticationEntryPoint, AccessDeniedHandler {

    private static final String RETRY_AFTER = "30";

    @Override
    public void commence(HttpServletRequest request, HttpServletResponse response, AuthenticationException problem)
            throws IOException {
        if (problem instanceof AuthenticationServiceException) {
            response.setHeader(HttpHeaders.RETRY_AFTER, RETRY_AFTER);
            write(
                    request,
                    response,
                    HttpStatus.SERVICE_UNAVAILABLE,
                    OperationOutcome.IssueType.TRANSIENT,
                    "the authorization server does not tell its keys, so that no token can be checked; try again later");
            return;
        }
        boolean isToken = problem instanceof OAuth2AuthenticationException;
        response.addHeader(HttpHeaders.WWW_AUTHENTICATE, isToken ? "Bearer error=\"invalid_token\"" : "Bearer");
        if (!isToken) {
            response.addHeader(HttpHeaders.WWW_AUTHENTICATE, "Basic realm=\"tamponade record adapter\"");
        }
        write(
                request,
                response,
                HttpStatus.UNAUTHORIZED,
                OperationOutcome.IssueType.LOGIN,
                isToken
                        ? "the access token does not count: " + problem.getMessage() + "; ask for a new one"
                        : "say who you are, by an access token (Authorization: Bearer) or by the operator's key, which is in"
                                + " the file operator-key in the adapter's folder of data (curl --netrc-file)");
    }

    /** Tells that a request is none that this server reads. */
    public static void rejected(
            HttpServletRequest request, HttpServletResponse response, RequestRejectedException problem)
            throws IOException {
        write(
                request,
                response,
                HttpStatus.BAD_REQUEST,
                OperationOutcome.IssueType.STRUCTURE,
                "the request's address or headers hold what none may hold; write it as GET / shows");
    }

    @Override
    public void handle(HttpServletRequest request, HttpServletResponse response, AccessDeniedException problem)
            throws IOException {
        String scopes = Arrays.stream(Role.values())
                .filter(it -> it != Role.READER)
                .map(Role::scope)
                .collect(Collectors.joining(", "));
        write(
                request,
                response,
                HttpStatus.FORBIDDEN,
                OperationOutcome.IssueType.FORBIDDEN,
                "you may not do this here; what may be done is said by the token's scope: " + scopes
                        + " and SMART's scopes to read, as system/Observation.rs");
    }

    private static void write(
            HttpServletRequest request,
            HttpServletResponse response,
            HttpStatus status,
            OperationOutcome.IssueType code,
            String words)
            throws IOException {
        boolean isFhir = request.getRequestURI().startsWith("/fhir")
                || request.getRequestURI().startsWith("/cases/")
                || request.getRequestURI().startsWith("/exports/");
        if (isFhir) {
            ResponseEntity<String> answer = FhirAnswers.outcome(status, code, words);
            Problems.write(response, status, FhirAnswers.FHIR_JSON, String.valueOf(answer.getBody()));
        } else {
            Problems.write(response, status, words);
        }
    }
}
