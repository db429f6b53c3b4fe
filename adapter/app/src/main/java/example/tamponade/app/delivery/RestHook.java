package example.tamponade.app.delivery;

import example.tamponade.app.search.FoundVersion;
import example.tamponade.app.subscription.Channel;
import java.io.IOException;
import java.net.URI;
import org.springframework.http.HttpMethod;
import org.springframework.http.client.ClientHttpResponse;
import org.springframework.web.client.ResourceAccessException;
import org.springframework.web.client.RestClient;

/**
 * Tells the endpoint of a subscription: HL7 FHIR R4, Subscription, 2.47.5.1, REST hook. With a payload the resource is put at
 * its address below the endpoint, without one an empty request says that something is new.
 */
final class RestHook {

    private final RestClient client;
    private final Channel channel;
    private final AnswerReader answers;

    RestHook(RestClient client, Channel channel, AnswerReader answers) {
        this.client = client;
        this.channel = channel;
        this.answers = answers;
    }

    Answer tell(FoundVersion resource) {
        try {
            RestClient.RequestBodySpec request = channel.hasPayload()
                    ? client.method(HttpMethod.PUT)
                            .uri(URI.create(channel.endpoint() + "/" + resource.type() + "/" + resource.id()))
                            .contentType(FhirServer.FHIR_JSON)
                    : client.post().uri(channel.endpoint());
            channel.headers().forEach(request::header);
            if (channel.hasPayload()) {
                request.body(resource.content());
            }
            return request.exchange((sent, response) -> answer(response));
        } catch (ResourceAccessException e) {
            return Answer.unavailable(FhirServer.words(e), null);
        }
    }

    private Answer answer(ClientHttpResponse response) throws IOException {
        if (response.getStatusCode().is2xxSuccessful()) {
            return Answer.taken(1);
        }
        Answer answer = answers.refusal(response);
        // Not every endpoint says why in FHIR.
        return AnswerReader.REFUSED.contains(response.getStatusCode().value())
                ? Answer.of(Answer.Kind.REFUSED, answer.words())
                : answer;
    }
}
