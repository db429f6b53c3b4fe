package example.tamponade.app.web;

import example.tamponade.app.access.AccessEntry;
import example.tamponade.app.access.AccessLogWriter;
import example.tamponade.app.access.Caller;
import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.time.Clock;
import java.util.regex.Pattern;
import org.springframework.http.HttpStatus;
import org.springframework.web.filter.OncePerRequestFilter;

/**
 * Writes down who asks for what of patients, before he is answered: what was answered was written down. Where he was refused,
 * that is written down behind it. Events are not its matter; they are written down with the events.
 */
public final class AccessLogFilter extends OncePerRequestFilter {

    private static final Pattern OF_PATIENTS = Pattern.compile(
            "/(case|cases|facilities|fhir|exports|quarantine|deliveries|operations|measures|cds-services)(/.*)?");
    private static final Pattern OPEN =
            Pattern.compile("/cds-services|/fhir/(metadata|\\.well-known/.*|[^?]*\\$validate)");

    // What FHIR calls by the id or the number of its version is read; all else is a search or an operation.
    private static final Pattern READ = Pattern.compile(
            "/fhir/\\w+/[A-Za-z0-9.-]+(/_history.*)?|/(case|cases|facilities|exports|quarantine|deliveries|operations)/.+");

    private final AccessLogWriter log;
    private final Clock clock;

    /** Writes to that log. */
    public AccessLogFilter(AccessLogWriter log, Clock clock) {
        this.log = log;
        this.clock = clock;
    }

    @Override
    protected boolean shouldNotFilter(HttpServletRequest request) {
        String path = request.getRequestURI();
        return !OF_PATIENTS.matcher(path).matches() || OPEN.matcher(path).matches();
    }

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        if (!log.add(entry(request, 0))) {
            Problems.write(
                    response,
                    HttpStatus.SERVICE_UNAVAILABLE,
                    "who reads what cannot be written down any more, so that nothing is read; see the server's log");
            return;
        }
        chain.doFilter(request, response);
        if (response.getStatus() >= HttpStatus.BAD_REQUEST.value()) {
            log.add(entry(request, response.getStatus()));
        }
    }

    private AccessEntry entry(HttpServletRequest request, int outcome) {
        String path = request.getRequestURI();
        return AccessEntry.of(
                clock.instant(),
                Caller.current(),
                request.getRemoteAddr(),
                action(request.getMethod(), path),
                path.substring(1),
                SearchForm.conditions(request),
                outcome);
    }

    private static AccessEntry.Action action(String method, String path) {
        return switch (method) {
            case "DELETE" -> AccessEntry.Action.DELETE;
            case "GET", "HEAD" -> READ.matcher(path).matches() ? AccessEntry.Action.READ : AccessEntry.Action.EXECUTE;
            default -> AccessEntry.Action.EXECUTE;
        };
    }
}
