package example.tamponade.app.access;

import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.springframework.security.authentication.AbstractAuthenticationToken;
import org.springframework.security.core.authority.SimpleGrantedAuthority;

/** A caller as Spring Security knows him. */
public final class CallerAuthentication extends AbstractAuthenticationToken {

    private static final long serialVersionUID = 1L;

    private final transient Caller caller;

    /** Lets that caller in. */
    public CallerAuthentication(Caller caller) {
        super(caller.roles().stream()
                .map(it -> new SimpleGrantedAuthority(it.authority()))
                .toList());
        this.caller = caller;
        setAuthenticated(true);
    }

    @Override
    public @Nullable Object getCredentials() {
        return null;
    }

    @Override
    public Caller getPrincipal() {
        return caller;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof CallerAuthentication same && caller.equals(same.caller);
    }

    @Override
    public int hashCode() {
        return Objects.hash(caller);
    }
}
