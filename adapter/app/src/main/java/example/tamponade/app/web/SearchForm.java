package example.tamponade.app.web;

import jakarta.servlet.http.HttpServletRequest;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.springframework.http.MediaType;
import org.springframework.web.util.UriUtils;

/** A search whose conditions are in its body, as a form: FHIR R4, RESTful API, 3.1.0.9. It changes nothing. */
final class SearchForm {

    private static final Pattern PATH = Pattern.compile("/fhir/[A-Za-z]+/_search");

    private SearchForm() {}

    static boolean is(HttpServletRequest request) {
        String type = Objects.requireNonNullElse(request.getContentType(), "");
        return request.getMethod().equals("POST")
                && PATH.matcher(request.getRequestURI()).matches()
                && type.toLowerCase(Locale.ROOT).startsWith(MediaType.APPLICATION_FORM_URLENCODED_VALUE);
    }

    /** The conditions of a request as the query of an address, whether they came so or in the body. */
    static String conditions(HttpServletRequest request) {
        if (!is(request)) {
            return Objects.requireNonNullElse(request.getQueryString(), "");
        }
        return request.getParameterMap().entrySet().stream()
                .flatMap(it -> Arrays.stream(it.getValue()).map(value -> encoded(it.getKey()) + "=" + encoded(value)))
                .collect(Collectors.joining("&"));
    }

    private static String encoded(String text) {
        return UriUtils.encode(text, StandardCharsets.UTF_8);
    }
}
