package example.tamponade.app.delivery;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.keys.UnusableKeysException;
import example.tamponade.fhir.bundle.CaseBundles;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.security.oauth2.core.OAuth2AuthorizationException;
import org.springframework.web.client.ResourceAccessException;
import org.springframework.web.client.RestClient;

/** A FHIR server that takes transactions (FHIR R4, RESTful API, 3.1.0.11). */
final class FhirServer implements Receiver {

    static final MediaType FHIR_JSON = MediaType.parseMediaType("application/fhir+json");

    private final FhirContext fhir = FhirContext.forR4Cached();
    private final RestClient client;
    private final URI address;
    private final CaseBundles bundles;
    private final AnswerReader answers;

    /** The server at that address, spoken to by that client. */
    FhirServer(RestClient client, URI address, CaseBundles bundles, AnswerReader answers) {
        this.client = client;
        this.address = address;
        this.bundles = bundles;
        this.answers = answers;
    }

    @Override
    public Answer put(String caseKey, List<Resource> resources, Map<String, String> etags) {
        try {
            return post(bundles.puts(resources, etags))
                    .exchange((request, response) -> answers.read(response, resources.size()));
        } catch (ResourceAccessException e) {
            return Answer.unavailable(words(e), null);
        } catch (OAuth2AuthorizationException | UnusableKeysException e) {
            return Answer.unavailable(
                    "no access token (" + e.getMessage() + "); check the token settings. It is tried again", null);
        }
    }

    @Override
    public Map<String, String> versions(Collection<String> names) {
        Bundle asked = new Bundle().setType(Bundle.BundleType.BATCH);
        List<String> inOrder = List.copyOf(names);
        inOrder.forEach(it ->
                asked.addEntry().getRequest().setMethod(Bundle.HTTPVerb.GET).setUrl(it));
        try {
            List<@Nullable String> etags =
                    post(asked).exchange((request, response) -> answers.versions(response, names.size()));
            Map<String, String> versions = new HashMap<>();
            for (int i = 0; i < inOrder.size(); i++) {
                String etag = etags.get(i);
                if (etag != null) {
                    versions.put(inOrder.get(i), etag);
                }
            }
            return versions;
        } catch (OAuth2AuthorizationException | UnusableKeysException e) {
            throw new UncheckedIOException(new IOException(e));
        } catch (ResourceAccessException e) {
            throw new UncheckedIOException(e.getCause() instanceof IOException cause ? cause : new IOException(e));
        }
    }

    private RestClient.RequestBodySpec post(Bundle bundle) {
        byte[] json = fhir.newJsonParser().encodeResourceToString(bundle).getBytes(StandardCharsets.UTF_8);
        RestClient.RequestBodySpec request = client.post().uri(address);
        return request.contentType(FHIR_JSON)
                .header(HttpHeaders.ACCEPT, FHIR_JSON.toString())
                // What it made of them is not needed back.
                .header("Prefer", "return=minimal")
                .body(json);
    }

    // The address is in the settings, and what the framework says of it is not needed.
    private static String words(ResourceAccessException failure) {
        Throwable cause = failure.getCause() == null ? failure : failure.getCause();
        String said = cause.getMessage();
        return "no answer (" + cause.getClass().getSimpleName() + (said == null ? "" : ": " + said)
                + "); check the address, the network and the server. It is tried again";
    }
}
