package example.tamponade.app.delivery;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.DataFormatException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.IdType;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.client.ClientHttpResponse;

/**
 * What an answer of a FHIR server means. Nothing counts as taken but a whole answer to the transaction that says so of each
 * of its entries.
 */
final class AnswerReader {

    private static final int LONGEST = 16 * 1024 * 1024;
    private static final int LONGEST_WORDS = 2000;
    private static final Duration LONGEST_WAIT = Duration.ofHours(1);
    private static final int NOT_FOUND = 404;
    private static final int GONE = 410;
    private static final Set<Integer> CONFLICTS = Set.of(409, 412);
    private static final int TOO_LARGE = 413;
    static final Set<Integer> REFUSED = Set.of(400, 422);

    private final FhirContext fhir = FhirContext.forR4Cached();
    private final Clock clock;

    AnswerReader(Clock clock) {
        this.clock = clock;
    }

    /** The answer to a transaction of so many entries. */
    Answer read(ClientHttpResponse response, int entries) throws IOException {
        int status = response.getStatusCode().value();
        IBaseResource body = body(response);
        if (status / 100 == 2) {
            return body instanceof Bundle bundle && isWhole(bundle, Bundle.BundleType.TRANSACTIONRESPONSE, entries)
                    ? taken(bundle)
                    : Answer.unavailable(
                            "answered " + status + " without saying what became of each entry; check that the address"
                                    + " is the base of a FHIR server that takes transactions. It is tried again",
                            null);
        }
        return refusal(status, body, response);
    }

    /** An answer that is no success. */
    Answer refusal(ClientHttpResponse response) throws IOException {
        return refusal(response.getStatusCode().value(), body(response), response);
    }

    private Answer refusal(int status, @Nullable IBaseResource body, ClientHttpResponse response) {
        String words = status + words(body);
        if (CONFLICTS.contains(status) || isAboutEntry(status, body)) {
            return Answer.of(Answer.Kind.CONFLICT, words);
        }
        if (status == TOO_LARGE) {
            return Answer.of(Answer.Kind.TOO_LARGE, words);
        }
        return REFUSED.contains(status) && body instanceof OperationOutcome
                ? Answer.of(Answer.Kind.REFUSED, words)
                : Answer.unavailable(words + remedy(status), wait(response.getHeaders()));
    }

    // What is to be replaced is not there any more.
    private static boolean isAboutEntry(int status, @Nullable IBaseResource body) {
        return (status == NOT_FOUND || status == GONE) && body instanceof OperationOutcome;
    }

    private static boolean isWhole(Bundle bundle, Bundle.BundleType type, int entries) {
        return bundle.getType() == type && bundle.getEntry().size() == entries;
    }

    private static Answer taken(Bundle bundle) {
        List<Bundle.BundleEntryResponseComponent> refused = bundle.getEntry().stream()
                .map(Bundle.BundleEntryComponent::getResponse)
                .filter(it -> it.getStatus() == null || !it.getStatus().startsWith("2"))
                .toList();
        return refused.isEmpty()
                ? Answer.taken(
                        bundle.getEntry().stream()
                                .map(it -> etag(it.getResponse()))
                                .toList(),
                        bundle.getEntry().stream()
                                .map(it -> id(it.getResponse()))
                                .toList())
                : Answer.of(
                        Answer.Kind.REFUSED,
                        refused.get(0).getStatus() + words(refused.get(0).getOutcome()));
    }

    /** The versions that a batch of so many reads was answered with, in order; null for what is not there. */
    List<@Nullable String> versions(ClientHttpResponse response, int entries) throws IOException {
        if (body(response) instanceof Bundle bundle && isWhole(bundle, Bundle.BundleType.BATCHRESPONSE, entries)) {
            List<@Nullable String> versions = new ArrayList<>();
            bundle.getEntry().forEach(it -> versions.add(version(it)));
            return versions;
        }
        throw new IOException("answered " + response.getStatusCode().value() + " to a batch of reads");
    }

    private static @Nullable String version(Bundle.BundleEntryComponent entry) {
        String status = entry.getResponse().getStatus();
        if (status == null || !status.startsWith("2")) {
            return null;
        }
        String etag = etag(entry.getResponse());
        Resource resource = entry.getResource();
        return etag.isEmpty() && resource != null && resource.getMeta().hasVersionId()
                ? "W/\"" + resource.getMeta().getVersionId() + "\""
                : etag;
    }

    private static String id(Bundle.BundleEntryResponseComponent response) {
        String id = response.hasLocation() ? new IdType(response.getLocation()).getIdPart() : null;
        return id == null ? "" : id;
    }

    // HAPI FHIR gives the number alone.
    private static String etag(Bundle.BundleEntryResponseComponent response) {
        String etag = response.getEtag();
        if (etag == null || etag.isBlank()) {
            return "";
        }
        return etag.contains("\"") ? etag : "W/\"" + etag + "\"";
    }

    private @Nullable IBaseResource body(ClientHttpResponse response) throws IOException {
        byte[] bytes;
        try (InputStream in = response.getBody()) {
            bytes = in.readNBytes(LONGEST);
        }
        try {
            return fhir.newJsonParser().parseResource(new String(bytes, StandardCharsets.UTF_8));
        } catch (DataFormatException e) {
            return null;
        }
    }

    private static String words(@Nullable IBaseResource body) {
        if (!(body instanceof OperationOutcome outcome)) {
            return "";
        }
        String issues = outcome.getIssue().stream()
                .map(AnswerReader::words)
                .filter(it -> !it.isBlank())
                .collect(Collectors.joining("; "));
        return ": " + (issues.length() > LONGEST_WORDS ? issues.substring(0, LONGEST_WORDS) + "…" : issues);
    }

    private static String words(OperationOutcome.OperationOutcomeIssueComponent issue) {
        String said = issue.hasDiagnostics()
                ? issue.getDiagnostics()
                : issue.getDetails().getText();
        String place = issue.getExpression().stream().map(it -> it.getValue()).collect(Collectors.joining(", "));
        return (said == null ? "" : said) + (place.isEmpty() ? "" : " at " + place);
    }

    private static String remedy(int status) {
        return switch (status) {
            case 401, 403 -> "; it does not let the adapter in: check the token settings of this destination";
            case 429, 503 -> "; it is busy and is tried again";
            case 301, 302, 307, 308 -> "; it has moved: set its new address";
            default -> "; it is tried again. Where this stays, check the address and the server";
        };
    }

    // Seconds, or a date (RFC 9110, 10.2.3).
    private @Nullable Duration wait(HttpHeaders headers) {
        String said = headers.getFirst(HttpHeaders.RETRY_AFTER);
        if (said == null) {
            return null;
        }
        Duration wait;
        try {
            wait = said.matches("\\d{1,9}")
                    ? Duration.ofSeconds(Long.parseLong(said))
                    : Duration.between(
                            clock.instant(),
                            ZonedDateTime.parse(said, DateTimeFormatter.RFC_1123_DATE_TIME)
                                    .toInstant());
        } catch (DateTimeException e) {
            return null;
        }
        return wait.compareTo(LONGEST_WAIT) > 0 ? LONGEST_WAIT : wait.isNegative() ? null : wait;
    }
}
