package example.tamponade.app.access;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.nimbusds.jose.JOSEException;
import com.nimbusds.jose.JOSEObjectType;
import com.nimbusds.jose.JWSAlgorithm;
import com.nimbusds.jose.JWSHeader;
import com.nimbusds.jose.crypto.ECDSASigner;
import com.nimbusds.jose.jwk.Curve;
import com.nimbusds.jose.jwk.ECKey;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jose.jwk.gen.ECKeyGenerator;
import com.nimbusds.jwt.JWTClaimsSet;
import com.nimbusds.jwt.SignedJWT;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.time.Instant;
import java.util.Date;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Gives access tokens (RFC 9068) and publishes the key that they are signed with. */
public final class AuthorizationServer implements AutoCloseable {

    static final String ISSUER = "https://login.example";
    static final String AUDIENCE = "https://record.example/fhir";

    private final HttpServer server;
    private final ECKey key;

    private AuthorizationServer(HttpServer server, ECKey key) {
        this.server = server;
        this.key = key;
    }

    /** Starts one with a new key. */
    public static AuthorizationServer start() throws IOException, JOSEException {
        ECKey key = newKey("2026");
        HttpServer server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        byte[] published = new JWKSet(key.toPublicJWK()).toString().getBytes(UTF_8);
        server.createContext("/keys", exchange -> {
            try (exchange) {
                exchange.getResponseHeaders().set("Content-Type", "application/json");
                exchange.sendResponseHeaders(200, published.length);
                exchange.getResponseBody().write(published);
            }
        });
        server.start();
        return new AuthorizationServer(server, key);
    }

    static ECKey newKey(String id) throws JOSEException {
        return new ECKeyGenerator(Curve.P_256)
                .keyID(id)
                .algorithm(JWSAlgorithm.ES256)
                .generate();
    }

    ECKey key() {
        return key;
    }

    /** As settings of the adapter. */
    public String[] settings() {
        return new String[] {
            "--tamponade.access.issuer=" + ISSUER,
            "--tamponade.access.keys=http://127.0.0.1:" + server.getAddress().getPort() + "/keys",
            "--tamponade.access.audience=" + AUDIENCE,
            "--tamponade.access.tokens=" + ISSUER + "/token"
        };
    }

    /** A token of somebody with these scopes, of these facilities. */
    public String token(String who, String scope, String... facilities) throws JOSEException {
        return signed(Map.of("sub", who, "scope", scope, "facilities", List.of(facilities)), key);
    }

    /** A token with these claims beside or instead of the usual ones; one that is null is left out. */
    static String signed(Map<String, Object> claims, ECKey by) throws JOSEException {
        Map<String, Object> all = new TreeMap<>(Map.of(
                "iss",
                ISSUER,
                "aud",
                AUDIENCE,
                "exp",
                Date.from(Instant.now().plusSeconds(300)),
                "client_id",
                "tester"));
        all.putAll(claims);
        JWTClaimsSet.Builder builder = new JWTClaimsSet.Builder();
        all.forEach((name, value) -> builder.claim(name, value.equals("") ? null : value));
        SignedJWT token = new SignedJWT(
                new JWSHeader.Builder(JWSAlgorithm.ES256)
                        .type(new JOSEObjectType("at+jwt"))
                        .keyID(by.getKeyID())
                        .build(),
                builder.build());
        token.sign(new ECDSASigner(by));
        return token.serialize();
    }

    /** Answers nobody any more. */
    @Override
    public void close() {
        server.stop(0);
    }
}
