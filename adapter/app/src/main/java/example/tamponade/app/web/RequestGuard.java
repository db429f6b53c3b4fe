package example.tamponade.app.web;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.web.filter.OncePerRequestFilter;

/**
 * Keeps pages of others in a browser on this machine away: a browser that knows the operator's key sends it along, whichever
 * page asks. A request must name a host of ours (against rebinding of names), must not come from a page of another origin
 * (RFC 6454), and must not have a content type that a form can send without asking first (WHATWG Fetch, CORS-safelisted
 * request headers).
 */
public final class RequestGuard extends OncePerRequestFilter {

    private static final Set<String> LOOPBACK = Set.of("localhost", "127.0.0.1", "[::1]");
    private static final Set<String> OF_FORMS =
            Set.of("text/plain", "application/x-www-form-urlencoded", "multipart/form-data");

    private final Set<String> hosts;

    /**
     * Lets requests to these hosts pass, and to the loopback.
     *
     * @param hosts further names that this server is reached by, without port
     */
    public RequestGuard(Set<String> hosts) {
        this.hosts = hosts.stream().map(it -> it.toLowerCase(Locale.ROOT)).collect(Collectors.toUnmodifiableSet());
    }

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        if (!isOurs(request.getHeader(HttpHeaders.HOST))) {
            Problems.write(
                    response,
                    HttpStatus.MISDIRECTED_REQUEST,
                    "this server has no such host name; use the loopback address, or give it the name in"
                            + " tamponade.hosts");
        } else if (isOfAnotherOrigin(request)) {
            Problems.write(
                    response, HttpStatus.FORBIDDEN, "pages of another origin are not served; call it from a program");
        } else if (isOfAForm(request) && !SearchForm.is(request)) {
            Problems.write(
                    response,
                    HttpStatus.UNSUPPORTED_MEDIA_TYPE,
                    "name the content type of what is sent, for example application/json; GET / lists them");
        } else {
            chain.doFilter(request, response);
        }
    }

    private boolean isOurs(@Nullable String host) {
        if (host == null) {
            return false;
        }
        String name = host.toLowerCase(Locale.ROOT).replaceFirst(":\\d{1,5}$", "");
        return LOOPBACK.contains(name) || hosts.contains(name);
    }

    private static boolean isOfAnotherOrigin(HttpServletRequest request) {
        String origin = request.getHeader(HttpHeaders.ORIGIN);
        String own = request.getScheme() + "://" + request.getHeader(HttpHeaders.HOST);
        return origin != null && !origin.equalsIgnoreCase(own)
                || "cross-site".equals(request.getHeader("Sec-Fetch-Site"));
    }

    private static boolean isOfAForm(HttpServletRequest request) {
        String type = request.getContentType();
        // A form sends no other method that could change anything.
        return request.getMethod().equals("POST")
                && (type == null
                        || OF_FORMS.contains(type.split(";", 2)[0].strip().toLowerCase(Locale.ROOT)));
    }
}
