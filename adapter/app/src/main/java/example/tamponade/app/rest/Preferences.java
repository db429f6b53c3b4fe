package example.tamponade.app.rest;

import ca.uhn.fhir.rest.api.server.RequestDetails;
import java.util.Arrays;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;

/** What a client prefers: RFC 7240, Prefer Header for HTTP. */
final class Preferences {

    private Preferences() {}

    static Set<String> of(RequestDetails request) {
        return request.getHeaders("Prefer").stream()
                .flatMap(it -> Arrays.stream(it.split("[,;]")))
                .map(it -> it.strip().toLowerCase(Locale.ROOT))
                .collect(Collectors.toSet());
    }

    /** Whether what is not understood may be left out: FHIR R4, RESTful API, 3.1.1.5. */
    static boolean isLenient(RequestDetails request) {
        return of(request).contains("handling=lenient");
    }
}
