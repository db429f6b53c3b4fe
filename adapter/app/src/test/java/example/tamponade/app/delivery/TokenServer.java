package example.tamponade.app.delivery;

import com.nimbusds.jose.JOSEObjectType;
import com.nimbusds.jose.JWSVerifier;
import com.nimbusds.jose.crypto.ECDSAVerifier;
import com.nimbusds.jose.jwk.JWK;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jwt.SignedJWT;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;
import java.util.stream.Collectors;

/**
 * Gives access tokens as a record's authorization server does: by an assertion that it checks (HL7 SMART App Launch 2.2.0,
 * Backend Services and Asymmetric Client Authentication; RFC 7523).
 */
final class TokenServer implements AutoCloseable {

    private static final Duration LONGEST_ASSERTION = Duration.ofMinutes(5);

    private final HttpServer server;
    private final Supplier<String> published;
    private final Set<String> tokens = ConcurrentHashMap.newKeySet();
    private final Set<String> assertions = ConcurrentHashMap.newKeySet();
    private final Set<String> signers = ConcurrentHashMap.newKeySet();

    private TokenServer(HttpServer server, Supplier<String> published) {
        this.server = server;
        this.published = published;
    }

    /** Starts one that reads the client's keys there. */
    static TokenServer start(Supplier<String> published) throws IOException {
        HttpServer server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        TokenServer tokens = new TokenServer(server, published);
        server.createContext("/token", tokens::handle);
        server.start();
        return tokens;
    }

    String address() {
        return "http://127.0.0.1:" + server.getAddress().getPort() + "/token";
    }

    boolean isValid(String authorization) {
        return authorization != null && tokens.contains(authorization.replaceFirst("^Bearer ", ""));
    }

    /** Ends every token. */
    void endTokens() {
        tokens.clear();
    }

    /** How many tokens were asked for. */
    int asked() {
        return assertions.size();
    }

    /** The ids of the keys that assertions were signed with. */
    Set<String> signers() {
        return signers;
    }

    private void handle(HttpExchange exchange) throws IOException {
        try (exchange) {
            String form = new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
            Map<String, String> asked = Arrays.stream(form.split("&"))
                    .map(it -> it.split("=", 2))
                    .collect(Collectors.toMap(it -> it[0], it -> URLDecoder.decode(it[1], StandardCharsets.UTF_8)));
            String problem = problem(asked);
            String body;
            if (problem.isEmpty()) {
                String token = UUID.randomUUID().toString();
                tokens.add(token);
                body = "{\"access_token\":\"" + token
                        + "\",\"token_type\":\"bearer\",\"expires_in\":300,\"scope\":\"system/*.cru\"}";
            } else {
                body = "{\"error\":\"invalid_client\",\"error_description\":\"" + problem + "\"}";
            }
            byte[] bytes = body.getBytes(StandardCharsets.UTF_8);
            exchange.getResponseHeaders().set("Content-Type", "application/json");
            exchange.sendResponseHeaders(problem.isEmpty() ? 200 : 400, bytes.length);
            exchange.getResponseBody().write(bytes);
        }
    }

    private String problem(Map<String, String> asked) {
        try {
            SignedJWT assertion = SignedJWT.parse(asked.get("client_assertion"));
            JWK key = JWKSet.parse(published.get())
                    .getKeyByKeyId(assertion.getHeader().getKeyID());
            if (key == null) {
                return "no such key is published";
            }
            JWSVerifier verifier = new ECDSAVerifier(key.toECKey());
            var claims = assertion.getJWTClaimsSet();
            boolean holds = asked.get("grant_type").equals("client_credentials")
                    && asked.get("client_assertion_type")
                            .equals("urn:ietf:params:oauth:client-assertion-type:jwt-bearer")
                    && asked.get("scope").equals("system/*.cru")
                    && assertion.verify(verifier)
                    && assertion.getHeader().getAlgorithm().getName().equals("ES384")
                    && JOSEObjectType.JWT.equals(assertion.getHeader().getType())
                    && claims.getIssuer().equals("clinic-7")
                    && claims.getSubject().equals("clinic-7")
                    && claims.getAudience().contains(address())
                    && claims.getExpirationTime().toInstant().isAfter(Instant.now())
                    && claims.getExpirationTime()
                            .toInstant()
                            .isBefore(Instant.now().plus(LONGEST_ASSERTION))
                    && assertions.add(claims.getJWTID());
            signers.add(key.getKeyID());
            return holds ? "" : "the assertion does not hold";
        } catch (Exception e) {
            return "the assertion cannot be read";
        }
    }

    @Override
    public void close() {
        server.stop(0);
    }
}
