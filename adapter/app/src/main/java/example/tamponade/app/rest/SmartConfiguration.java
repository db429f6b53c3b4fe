package example.tamponade.app.rest;

import example.tamponade.app.access.Role;
import java.net.URI;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.json.JsonMapper;

/**
 * Tells clients where tokens are given: <a href="https://hl7.org/fhir/smart-app-launch/STU2.2/conformance.html">SMART App Launch
 * 2.2.0, Conformance</a>.
 *
 * @param issuer the authorization server; null: there is none
 * @param keys the address of its public keys
 * @param tokens the address where it gives tokens
 */
public record SmartConfiguration(
        @Nullable URI issuer, @Nullable URI keys, @Nullable URI tokens) {

    /** Where clients look for it, below the API. */
    static final String PATH = "/.well-known/smart-configuration";

    private static final JsonMapper JSON = JsonMapper.builder().build();

    /** Whether there is one to tell of. */
    boolean isKnown() {
        return issuer != null && keys != null && tokens != null;
    }

    String json() {
        List<String> scopes = new ArrayList<>(List.of("system/*.rs", "user/*.rs", "patient/*.rs"));
        Arrays.stream(Role.values())
                .filter(it -> it != Role.READER)
                .map(Role::scope)
                .forEach(scopes::add);
        Map<String, Object> told = new LinkedHashMap<>();
        told.put("issuer", String.valueOf(issuer));
        told.put("jwks_uri", String.valueOf(keys));
        told.put("token_endpoint", String.valueOf(tokens));
        told.put("grant_types_supported", List.of("client_credentials"));
        told.put("code_challenge_methods_supported", List.of("S256"));
        told.put("scopes_supported", scopes);
        told.put("capabilities", List.of("permission-v2", "permission-user", "permission-patient"));
        return JSON.writeValueAsString(told);
    }
}
