package example.tamponade.app.access;

import java.util.Set;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.web.context.request.RequestContextHolder;
import org.springframework.web.context.request.ServletRequestAttributes;

/**
 * Who asks for something, and what he may ask for.
 *
 * @param name who, as whoever vouches for him calls him
 * @param client the program that he uses; empty where that is not said
 * @param address from where on the network; empty where that is not known
 * @param roles what he may do
 * @param scopes which types he may read
 * @param compartment of which cases
 */
public record Caller(
        String name, String client, String address, Set<Role> roles, Scopes scopes, Compartment compartment) {

    public Caller {
        roles = Set.copyOf(roles);
    }

    /** Whoever has the operator's key of this adapter: may do everything. */
    static Caller operator() {
        return new Caller("operator", "", "", Set.of(Role.values()), Scopes.ALL, Compartment.EVERYTHING);
    }

    /**
     * A way in that knows no users: what comes by it is taken, and noted under its name.
     *
     * @param way what it is, as {@code mllp}, {@code topic} or {@code command}
     * @param who what is known of who uses it
     */
    public static Caller by(String way, String who) {
        return new Caller(way + " " + who, "", "", Set.of(Role.SENDER), Scopes.of(Set.of()), Compartment.EVERYTHING);
    }

    /** Whose request this thread answers. */
    public static Caller current() {
        Authentication authentication = SecurityContextHolder.getContext().getAuthentication();
        if (authentication != null && authentication.getPrincipal() instanceof Caller caller) {
            return RequestContextHolder.getRequestAttributes() instanceof ServletRequestAttributes request
                    ? caller.from(request.getRequest().getRemoteAddr())
                    : caller;
        }
        throw new IllegalStateException("nobody was let in");
    }

    private Caller from(String there) {
        return new Caller(name, client, there, roles, scopes, compartment);
    }

    /** Whether he may do that. */
    public boolean is(Role role) {
        return roles.contains(role);
    }
}
