package example.tamponade.app.rest;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.serve.RunningServer;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Resource;

/** Reads a server's FHIR interface, as those who integrate it do. */
final class FhirReader {

    private static final FhirContext FHIR = FhirContext.forR4Cached();

    private final RunningServer server;

    FhirReader(RunningServer server) {
        this.server = server;
    }

    HttpResponse<String> answer(String path) {
        return server.get("/fhir/" + path);
    }

    Bundle bundle(String path) {
        return parse(Bundle.class, answer(path));
    }

    OperationOutcome outcome(String path) {
        return parse(OperationOutcome.class, answer(path));
    }

    static <T extends Resource> T parse(Class<T> type, HttpResponse<String> answer) {
        return FHIR.newJsonParser().parseResource(type, answer.body());
    }

    /** What a search finds, page by page. */
    List<Resource> all(String search) {
        List<Resource> found = new ArrayList<>();
        Bundle page = bundle(search);
        matches(page, found);
        while (page.getLink(Bundle.LINK_NEXT) != null) {
            page = next(page);
            matches(page, found);
        }
        return found;
    }

    Bundle next(Bundle page) {
        URI next = URI.create(page.getLink(Bundle.LINK_NEXT).getUrl());
        return parse(Bundle.class, server.get(next.getRawPath() + "?" + next.getRawQuery()));
    }

    static void matches(Bundle page, List<Resource> into) {
        page.getEntry().stream()
                .filter(it -> it.getSearch().getMode() == Bundle.SearchEntryMode.MATCH)
                .forEach(it -> into.add(it.getResource()));
    }

    Set<String> names(String search) {
        return names(all(search));
    }

    static Set<String> names(List<Resource> resources) {
        return new TreeSet<>(resources.stream().map(FhirReader::name).toList());
    }

    static String name(Resource resource) {
        return resource.fhirType() + "/" + resource.getIdPart();
    }

    static String encoded(String text) {
        return URLEncoder.encode(text, StandardCharsets.UTF_8);
    }
}
