package example.tamponade.app.delivery;

import example.tamponade.app.keys.KeyFile;
import java.util.List;
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

    /** The files of the keys that the adapter signs with. */
    public List<KeyFile> keys() {
        return destinations.values().stream()
                .map(Destination::token)
                .filter(TokenSettings::isAsked)
                .map(TokenSettings::keys)
                .distinct()
                .map(KeyFile::new)
                .toList();
    }
}
