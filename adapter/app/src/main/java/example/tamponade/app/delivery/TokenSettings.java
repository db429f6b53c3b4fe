package example.tamponade.app.delivery;

import java.net.URI;
import java.nio.file.Path;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * How an access token is got: SMART Backend Services (HL7 SMART App Launch 2.2.0, Backend Services), OAuth 2.0 client
 * credentials with an assertion that the adapter signs.
 *
 * @param address the token endpoint; absent: the destination asks for no token
 * @param client the id that the destination's operator has given to the adapter
 * @param keys the file of the adapter's keys, as {@code keys add} makes it
 * @param scope what is asked for
 */
public record TokenSettings(
        @Nullable URI address,
        @Nullable String client,
        @Nullable Path keys,
        @DefaultValue("system/*.cru") String scope) {

    /** No tokens are asked for. */
    static final TokenSettings NONE = new TokenSettings(null, null, null, "");

    boolean isAsked() {
        return address != null && !address.toString().isEmpty();
    }

    @Override
    public URI address() {
        return Objects.requireNonNull(address);
    }

    @Override
    public String client() {
        return Objects.requireNonNull(client);
    }

    @Override
    public Path keys() {
        return Objects.requireNonNull(keys);
    }

    boolean isWhole() {
        return client != null && !client.isBlank() && keys != null;
    }
}
