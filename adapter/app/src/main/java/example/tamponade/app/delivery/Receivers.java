package example.tamponade.app.delivery;

import example.tamponade.app.subscription.Channel;
import example.tamponade.fhir.bundle.CaseBundles;
import java.net.http.HttpClient;
import java.security.NoSuchAlgorithmException;
import java.time.Clock;
import javax.net.ssl.SSLContext;
import org.springframework.boot.ssl.SslBundles;
import org.springframework.http.client.JdkClientHttpRequestFactory;
import org.springframework.web.client.RestClient;

/** Makes what speaks to a destination. */
public final class Receivers {

    private final CaseBundles bundles;
    private final SslBundles certificates;
    private final Clock clock;

    /** Speaks with these certificates, where a destination names some. */
    public Receivers(CaseBundles bundles, SslBundles certificates, Clock clock) {
        this.bundles = bundles;
        this.certificates = certificates;
        this.clock = clock;
    }

    Receiver of(Destination destination, Deliverable deliverable) {
        return switch (destination.kind()) {
            case FHIR_SERVER -> fhirServer(destination);
            case MESSAGES ->
                new MllpReceiver(
                        destination.address(), destination.patience(), tls(destination), deliverable::mother, clock);
            case TOPIC -> new TopicReceiver(destination.address(), destination.properties(), destination.patience());
        };
    }

    /** Speaks to the endpoint of a subscription. */
    RestHook hook(Channel channel, Destination destination) {
        return new RestHook(client(destination), channel, new AnswerReader(clock));
    }

    private Receiver fhirServer(Destination destination) {
        AnswerReader answers = new AnswerReader(clock);
        return switch (destination.ids()) {
            case OURS -> FhirServer.withOurIds(client(destination), destination.address(), bundles, answers);
            case RECEIVER ->
                FhirServer.withItsIds(
                        client(destination), destination.address(), new ReceiverIds(bundles.resourceTag()), answers);
        };
    }

    private RestClient client(Destination destination) {
        // HTTP/1.1 where nothing is agreed upon first: not every server takes the offer of another with a body.
        HttpClient.Builder http = HttpClient.newBuilder()
                .version(HttpClient.Version.HTTP_1_1)
                .sslContext(tls(destination))
                .connectTimeout(destination.patience());
        JdkClientHttpRequestFactory requests = new JdkClientHttpRequestFactory(http.build());
        requests.setReadTimeout(destination.patience());
        RestClient.Builder client = RestClient.builder().requestFactory(requests);
        if (destination.token().isAsked()) {
            client.requestInterceptor(AccessTokens.of(destination.token(), requests));
        }
        return client.build();
    }

    private SSLContext tls(Destination destination) {
        String name = destination.tls();
        try {
            return name == null || name.isBlank()
                    ? SSLContext.getDefault()
                    : certificates.getBundle(name).createSslContext();
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every JDK has TLS", e);
        }
    }
}
