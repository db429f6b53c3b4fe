package example.tamponade.app.delivery;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.keys.UnusableKeysException;
import example.tamponade.app.outbox.Held;
import example.tamponade.fhir.bundle.CaseBundles;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.stream.Collectors;
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
    private final BiFunction<List<Resource>, Map<String, Held>, Bundle> puts;
    private final Function<Map.Entry<String, Held>, @Nullable String> addresses;
    private final AnswerReader answers;

    private FhirServer(
            RestClient client,
            URI address,
            BiFunction<List<Resource>, Map<String, Held>, Bundle> puts,
            Function<Map.Entry<String, Held>, @Nullable String> addresses,
            AnswerReader answers) {
        this.client = client;
        this.address = address;
        this.puts = puts;
        this.addresses = addresses;
        this.answers = answers;
    }

    /** A server that keeps each resource at our address. */
    static FhirServer withOurIds(RestClient client, URI address, CaseBundles bundles, AnswerReader answers) {
        return new FhirServer(
                client,
                address,
                (resources, there) -> bundles.puts(resources, etags(there)),
                Map.Entry::getKey,
                answers);
    }

    /** A server that gives its own ids. */
    static FhirServer withItsIds(RestClient client, URI address, ReceiverIds ids, AnswerReader answers) {
        return new FhirServer(client, address, ids::puts, FhirServer::itsAddress, answers);
    }

    private static Map<String, String> etags(Map<String, Held> there) {
        return there.entrySet().stream()
                .filter(it -> !it.getValue().etag().isEmpty())
                .collect(Collectors.toMap(Map.Entry::getKey, it -> it.getValue().etag()));
    }

    private static @Nullable String itsAddress(Map.Entry<String, Held> known) {
        String name = known.getKey();
        String id = known.getValue().id();
        return id.isEmpty() ? null : name.substring(0, name.indexOf('/') + 1) + id;
    }

    @Override
    public Answer put(String caseKey, List<Resource> resources, Map<String, Held> there) {
        try {
            return post(puts.apply(resources, there))
                    .exchange((request, response) -> answers.read(response, resources.size()));
        } catch (ResourceAccessException e) {
            return Answer.unavailable(words(e), null);
        } catch (OAuth2AuthorizationException | UnusableKeysException e) {
            return Answer.unavailable(
                    "no access token (" + e.getMessage() + "); check the token settings. It is tried again", null);
        }
    }

    @Override
    public Map<String, String> versions(Map<String, Held> known) {
        Bundle asked = new Bundle().setType(Bundle.BundleType.BATCH);
        List<String> inOrder = new ArrayList<>();
        for (Map.Entry<String, Held> resource : known.entrySet()) {
            String there = addresses.apply(resource);
            if (there != null) {
                asked.addEntry().getRequest().setMethod(Bundle.HTTPVerb.GET).setUrl(there);
                inOrder.add(resource.getKey());
            }
        }
        if (inOrder.isEmpty()) {
            return Map.of();
        }
        try {
            List<@Nullable String> etags =
                    post(asked).exchange((request, response) -> answers.versions(response, inOrder.size()));
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
    static String words(ResourceAccessException failure) {
        Throwable cause = failure.getCause() == null ? failure : failure.getCause();
        String said = cause.getMessage();
        return "no answer (" + cause.getClass().getSimpleName() + (said == null ? "" : ": " + said)
                + "); check the address, the network and the server. It is tried again";
    }
}
