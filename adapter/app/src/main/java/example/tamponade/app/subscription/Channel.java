package example.tamponade.app.subscription;

import java.net.URI;
import java.util.LinkedHashMap;
import java.util.Map;
import org.hl7.fhir.r4.model.StringType;
import org.hl7.fhir.r4.model.Subscription;

/**
 * Where a subscription is told.
 *
 * @param endpoint the address, without a slash at its end
 * @param hasPayload whether the resource is sent, and not only that there is one
 * @param headers what is sent along, as a token of the receiver
 */
public record Channel(URI endpoint, boolean hasPayload, Map<String, String> headers) {

    /** The channel of a subscription that was accepted. */
    public static Channel of(Subscription subscription) {
        Subscription.SubscriptionChannelComponent channel = subscription.getChannel();
        Map<String, String> headers = new LinkedHashMap<>();
        for (StringType header : channel.getHeader()) {
            String[] parts = header.getValue().split(":", 2);
            headers.put(parts[0].strip(), parts[1].strip());
        }
        return new Channel(URI.create(channel.getEndpoint().replaceFirst("/+$", "")), channel.hasPayload(), headers);
    }
}
