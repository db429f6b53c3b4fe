package example.tamponade.app.rest;

import example.tamponade.app.search.FoundPage;
import example.tamponade.app.search.FoundVersion;
import example.tamponade.app.search.SearchRequest;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.StringJoiner;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.jspecify.annotations.Nullable;

/** Answers a search with a Bundle: FHIR R4, <a href="http://hl7.org/fhir/R4/http.html#search">RESTful API, search</a>. */
final class SearchAnswer {

    private final String base;

    /** Answers from a server at that address. */
    SearchAnswer(String base) {
        this.base = base;
    }

    /**
     * All that was found, in one answer.
     *
     * @param self address of the request
     * @param waiting how many events are acknowledged and not on record yet
     */
    Bundle whole(List<FoundVersion> found, String self, long waiting) {
        Bundle bundle = new Bundle();
        bundle.setType(Bundle.BundleType.SEARCHSET);
        bundle.addLink().setRelation("self").setUrl(self);
        bundle.setTotal(found.size());
        found.forEach(it -> add(bundle, it, Bundle.SearchEntryMode.MATCH));
        addOutcome(bundle, List.of(), waiting);
        return bundle;
    }

    /**
     * A page of what was found, with links to this page and the next.
     *
     * @param parameters the search as it was asked
     * @param waiting how many events are acknowledged and not on record yet
     */
    Bundle of(SearchRequest understood, Map<String, List<String>> parameters, FoundPage page, long waiting) {
        Bundle bundle = new Bundle();
        bundle.setType(Bundle.BundleType.SEARCHSET);
        bundle.addLink().setRelation("self").setUrl(link(understood, parameters, null));
        if (page.next() != null) {
            bundle.addLink().setRelation("next").setUrl(link(understood, parameters, page.next()));
        }
        if (page.total() != null) {
            bundle.setTotal(Math.toIntExact(page.total()));
        }
        page.matches().forEach(it -> add(bundle, it, Bundle.SearchEntryMode.MATCH));
        page.others().forEach(it -> add(bundle, it, Bundle.SearchEntryMode.INCLUDE));
        addOutcome(bundle, understood.ignored(), waiting);
        return bundle;
    }

    private void add(Bundle bundle, FoundVersion version, Bundle.SearchEntryMode mode) {
        bundle.addEntry()
                .setFullUrl(base + "/" + version.type() + "/" + version.id())
                .setResource(Content.resource(version))
                .getSearch()
                .setMode(mode);
    }

    private static void addOutcome(Bundle bundle, List<String> ignored, long waiting) {
        OperationOutcome outcome = new OperationOutcome();
        ignored.forEach(it -> outcome.addIssue()
                .setSeverity(OperationOutcome.IssueSeverity.WARNING)
                .setCode(OperationOutcome.IssueType.NOTSUPPORTED)
                .setDiagnostics("'" + it + "' is not known and was left out: more may be found than was asked for"));
        if (waiting > 0) {
            outcome.addIssue()
                    .setSeverity(OperationOutcome.IssueSeverity.WARNING)
                    .setCode(OperationOutcome.IssueType.INCOMPLETE)
                    .setDiagnostics(waiting + " events were taken and are not on record yet: what is found here may be"
                            + " behind the bedside; ask again in a moment");
        }
        if (outcome.hasIssue()) {
            bundle.addEntry().setResource(outcome).getSearch().setMode(Bundle.SearchEntryMode.OUTCOME);
        }
    }

    private String link(SearchRequest understood, Map<String, List<String>> parameters, @Nullable String next) {
        StringJoiner query = new StringJoiner("&");
        parameters.forEach((name, values) -> {
            if (!understood.ignored().contains(name) && (next == null || !name.equals(SearchRequest.AFTER))) {
                values.forEach(it -> query.add(encoded(name) + "=" + encoded(it)));
            }
        });
        if (next != null) {
            query.add(SearchRequest.AFTER + "=" + encoded(next));
        }
        return base + "/" + understood.type() + (query.length() == 0 ? "" : "?" + query);
    }

    private static String encoded(String text) {
        return URLEncoder.encode(text, StandardCharsets.UTF_8);
    }
}
