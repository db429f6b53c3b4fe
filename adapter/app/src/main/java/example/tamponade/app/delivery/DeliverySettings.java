package example.tamponade.app.delivery;

import java.util.Map;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * Where what is on record is delivered to.
 *
 * @param destinations each by its name
 */
@ConfigurationProperties("tamponade")
public record DeliverySettings(@DefaultValue Map<String, Destination> destinations) {

    /** Checks each destination. */
    public DeliverySettings {
        destinations.forEach((name, destination) -> destination.check(name));
    }
}
