package example.tamponade.app.access;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.springframework.core.convert.converter.Converter;
import org.springframework.security.oauth2.core.OAuth2AuthenticationException;
import org.springframework.security.oauth2.jwt.Jwt;
import org.springframework.security.oauth2.server.resource.BearerTokenErrors;

/**
 * Who an access token speaks of: a JWT whose signature, issuer, audience and time hold (RFC 9068). Its {@code scope} gives
 * roles and SMART's scopes, {@code facilities} the ids of facilities or {@code *}, and {@code patient} the one patient that
 * scopes of {@code patient/} speak of.
 */
public final class TokenCallers implements Converter<Jwt, CallerAuthentication> {

    private static final String ALL = "*";

    @Override
    public CallerAuthentication convert(Jwt token) {
        Set<String> given = new LinkedHashSet<>(scopes(token));
        Scopes scopes = Scopes.of(given);
        Set<Role> roles = EnumSet.noneOf(Role.class);
        Arrays.stream(Role.values())
                .filter(it -> it != Role.READER && given.contains(it.scope()))
                .forEach(roles::add);
        if (!scopes.isEmpty()) {
            roles.add(Role.READER);
        }
        String client = text(token, "client_id", "azp");
        String name = text(token, "sub", "client_id");
        demand(!name.isEmpty(), "the token says of nobody whose it is: it needs sub or client_id");
        demand(!name.equals(OperatorKey.USER), "nobody but whoever has the operator's key is called so here");
        return new CallerAuthentication(new Caller(name, client, "", roles, scopes, compartment(token, scopes, roles)));
    }

    private static Compartment compartment(Jwt token, Scopes scopes, Set<Role> roles) {
        String patient = text(token, "patient");
        demand(
                !scopes.ofOnePatient() || !patient.isEmpty(),
                "the token has scopes of patient/ and says of no patient: it needs the claim patient");
        List<String> facilities = list(token, "facilities");
        boolean isOfAll = facilities.contains(ALL);
        // Whoever only reads, and of one patient, need be of no facility.
        boolean isReaderOfOne = facilities.isEmpty() && !patient.isEmpty() && roles.equals(Set.of(Role.READER));
        demand(
                isOfAll || isReaderOfOne || !facilities.isEmpty() || roles.isEmpty(),
                "the token names no facility: it needs the claim facilities, a list of their ids, or * for all");
        demand(
                isOfAll || !roles.contains(Role.OPERATOR),
                "the role of an operator is of all facilities: the claim facilities must be *");
        return new Compartment(
                isOfAll || isReaderOfOne ? null : new LinkedHashSet<>(facilities), patient.isEmpty() ? null : patient);
    }

    private static void demand(boolean holds, String words) {
        if (!holds) {
            throw new OAuth2AuthenticationException(BearerTokenErrors.invalidToken(words));
        }
    }

    private static List<String> scopes(Jwt token) {
        return list(token, token.hasClaim("scope") ? "scope" : "scp");
    }

    // Words in one text or in a list, as authorization servers write it the one way or the other.
    private static List<String> list(Jwt token, String claim) {
        Object value = token.getClaims().get(claim);
        if (value instanceof List<?> several) {
            return several.stream().map(String::valueOf).toList();
        }
        return value instanceof String text
                ? Arrays.stream(text.split(" ")).filter(it -> !it.isEmpty()).toList()
                : List.of();
    }

    private static String text(Jwt token, String... claims) {
        return Arrays.stream(claims)
                .map(it -> token.getClaims().get(it))
                .filter(String.class::isInstance)
                .map(String.class::cast)
                .filter(it -> !it.isBlank())
                .findFirst()
                .orElse("");
    }
}
