package example.tamponade.app.access;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ca.uhn.fhir.context.FhirContext;
import com.nimbusds.jose.JOSEException;
import com.nimbusds.jose.JWSAlgorithm;
import com.nimbusds.jose.JWSHeader;
import com.nimbusds.jose.crypto.MACSigner;
import com.nimbusds.jwt.JWTClaimsSet;
import com.nimbusds.jwt.PlainJWT;
import com.nimbusds.jwt.SignedJWT;
import example.tamponade.app.CommandRun;
import example.tamponade.app.Samples;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.serve.RunningServer;
import example.tamponade.fhir.conformance.Conformance;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.Arrays;
import java.util.Base64;
import java.util.Date;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.AuditEvent;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.junit.jupiter.api.Test;

/**
 * Who is let in, what he sees, and that it is written down. Tokens: RFC 9068, RFC 6750, and SMART App Launch 2.2.0, Scopes for
 * requesting FHIR resources.
 */
class AccessIT {

    private static final HttpClient CLIENT = HttpClient.newHttpClient();
    private static final String FACILITY = "marrowby-cross";
    private static final String CASE = "/cases/" + FACILITY + "/MRX-2026-0048";

    // What each is answered: an HTTP status, with the number of resources where a Bundle of none would be the worse
    // fault.
    // {P} is the mother's id. Columns: nobody; a sender; a reader; a reader of another facility; one who may read
    // Observations
    // alone; an auditor; an operator; the operator's key.
    private static final String TABLE = """
            GET /                                             200 200 200 200 200 200 200 200
            GET /schema                                       200 200 200 200 200 200 200 200
            GET /fhir/metadata                                200 200 200 200 200 200 200 200
            GET /fhir/.well-known/smart-configuration         200 200 200 200 200 200 200 200
            GET /nowhere                                      401 404 404 404 404 404 404 404
            POST /events                                      401 200 403 403 403 403 403 200
            POST /messages                                    401 200 403 403 403 403 403 200
            GET /intake                                       401 200 403 403 403 403 200 200
            GET /ledger                                       401 200 403 403 403 403 200 200
            GET /cases                                        401 403 200 200 403 403 403 200
            GET {C}                                           401 403 200 404 403 403 403 200
            GET {C}?as=document                               401 403 200 404 403 403 403 200
            GET {C}?as=page                                   401 403 200 404 403 403 403 200
            GET {C}?as=pdf                                    401 403 200 404 403 403 403 200
            GET {C}?pseudonymised=true                        401 403 200 404 403 200 403 200
            GET /case/marrowby-cross/MRX-2026-0048            401 403 200 404 403 403 403 200
            GET /case                                         401 403 200 200 403 403 403 200
            GET /assets/course.js                             200 200 200 200 200 200 200 200
            GET /cds-services                                 200 200 200 200 200 200 200 200
            POST /cds-services/open-warnings                  401 403 400 400 403 403 403 400
            GET /facilities                                   401 403 200 200 403 403 403 200
            GET /facilities/marrowby-cross                    401 403 200 404 403 403 403 200
            GET /fhir/Patient/{P}                             401 403 200 404 403 403 403 200
            GET /fhir/Patient/{P}/_history/1                  401 403 200 404 403 403 403 200
            GET /fhir/Patient/{P}/_history                    401 403 200 404 403 403 403 200
            GET /fhir/Patient/_history                        401 403 200/1 200/0 403 403 403 200/1
            GET /fhir/Patient                                 401 403 200/1 200/0 403 403 403 200/1
            POST /fhir/Patient/_search                        401 403 200/1 200/0 403 403 403 200/1
            GET /fhir/Patient?_summary=count                  401 403 200 200 403 403 403 200
            GET /fhir/Observation?_count=5                    401 403 200/5 200/0 200/5 403 403 200/5
            GET /fhir/Observation?patient={P}&_count=5        401 403 200/5 200/0 200/5 403 403 200/5
            GET /fhir/Observation?_include=Observation:subject 401 403 200/51 200/0 403 403 403 200/51
            GET /fhir/Observation?patient.active=true         401 403 400 400 400 403 403 400
            GET /fhir/Observation?patient.identifier=x        401 403 200/0 200/0 403 403 403 200/0
            GET /fhir/Observation/$lastn?patient={P}&code=urine-rate 401 403 200/1 200/0 200/1 403 403 200/1
            GET /fhir/Practitioner                            401 403 200/8 200/0 403 403 403 200/8
            GET /fhir/Patient/{P}/$everything                 401 403 200 404 403 403 403 200
            GET /fhir/Patient/{P}/$everything?_type=Observation 401 403 200 404 403 403 403 200
            GET /fhir/Group                                   401 403 200/3 200/0 403 403 403 200/3
            GET /fhir/Group/month-2026-03                     401 403 200 200 403 403 403 200
            GET /measures?month=2026-03                       401 403 200 200 403 200 403 200
            GET /measures?month=2026-03&as=page               401 403 200 200 403 200 403 200
            GET /fhir/Measure                                 401 403 200/11 200/11 200/11 200/11 403 200/11
            GET /fhir/Measure/$evaluate-measure?periodStart=2026-03&periodEnd=2026-03 401 403 200/11 200/11 403 200/11 403 200/11
            GET /fhir/Measure/near-miss/$evaluate-measure?periodStart=2026-03&periodEnd=2026-03&reportType=subject-list 401 403 200 200 403 403 403 200
            GET /fhir/$export                                 401 403 202 202 403 202 403 202
            GET /fhir/$export?_type=Observation               401 403 202 202 202 202 403 202
            GET /fhir/Group/month-2026-03/$export             401 403 202 202 403 202 403 202
            GET {E}                                           401 403 404 404 404 404 403 200
            DELETE {E}                                        401 403 404 404 404 404 403 202
            PUT /fhir/Patient/{P}                             401 403 405 405 405 403 403 405
            DELETE /fhir/Patient/{P}                          401 403 405 405 405 403 403 405
            POST /fhir/Patient/$validate                      401 200 200 200 200 200 200 200
            GET /fhir/AuditEvent?date=gt2100-01-01            401 403 403 403 403 403 200/0 200/0
            GET /fhir/AuditEvent/1                            401 403 403 403 403 403 200 200
            GET /fhir/Subscription                            401 403 403 403 403 403 200/0 200/0
            POST /fhir/Subscription                           401 403 403 403 403 403 400 400
            GET /quarantine                                   401 403 403 403 403 403 200 200
            GET /operations                                   401 403 403 403 403 403 200 200
            GET /operations/refused/00000000-0000-4000-8000-000000000000 401 403 403 403 403 403 404 404
            GET /assets/page.css                              200 200 200 200 200 200 200 200
            GET /deliveries                                   401 403 403 403 403 403 200 200
            POST /deliveries/nowhere/release                  401 403 403 403 403 403 404 404
            DELETE /deliveries/nowhere                        401 403 403 403 403 403 404 404
            """;

    @EachDatabase
    void letsEachDoWhatHeMayAndNothingElse(TestDatabase database) throws Exception {
        Path key = Files.write(database.settings().folder().resolve("pseudonyms"), new byte[32]);
        try (AuthorizationServer tokens = AuthorizationServer.start();
                RunningServer server = start(database, tokens, "--tamponade.pseudonyms=" + key)) {
            send(server, "referred");
            String patient = id(server, "/fhir/Patient");
            List<String> logins = List.of(
                    "",
                    "Bearer " + tokens.token("anna", "role/sender", FACILITY),
                    "Bearer " + tokens.token("ben", "system/*.rs", FACILITY),
                    "Bearer " + tokens.token("cleo", "system/*.rs", "fernglade-hp"),
                    "Bearer " + tokens.token("dan", "user/Observation.rs", FACILITY),
                    "Bearer " + tokens.token("eve", "role/auditor", FACILITY),
                    "Bearer " + tokens.token("finn", "role/operator", "*"),
                    server.login());
            String export = export(server);
            List<String> faults = new java.util.ArrayList<>();
            int cells = 0;
            for (String line : TABLE.lines().toList()) {
                String[] words = line.split(" +");
                for (int i = 0; i < logins.size(); i++) {
                    String path = words[1].replace("{P}", patient)
                            .replace("{C}", CASE)
                            .replace("{E}", export);
                    String answered = answered(server, words[0], path, logins.get(i));
                    cells++;
                    if (!answered.equals(words[i + 2]) && !answered.startsWith(words[i + 2] + "/")) {
                        faults.add(line.strip() + ": column " + (i + 1) + " is answered " + answered);
                    }
                }
            }
            assertThat(faults).isEmpty();
            assertThat(cells).isEqualTo(64 * 8);
        }
    }

    private static String answered(RunningServer server, String method, String path, String login) throws Exception {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + server.port() + path))
                .header("Prefer", "respond-async");
        if (!login.isEmpty()) {
            request.header("Authorization", login);
        }
        String type = path.endsWith("_search")
                ? "application/x-www-form-urlencoded"
                : path.equals("/events")
                        ? "application/x-ndjson"
                        : path.equals("/messages") ? "application/hl7-v2+er7" : "application/fhir+json";
        byte[] body = path.equals("/events")
                ? Samples.events("referred")
                : path.equals("/messages")
                        ? "MSH|^~\\&|".getBytes(UTF_8)
                        : "{\"resourceType\":\"Patient\",\"id\":\"%s\"}"
                                .formatted(path.replaceFirst(".*/", ""))
                                .getBytes(UTF_8);
        body = path.endsWith("_search") ? "_count=50".getBytes(UTF_8) : body;
        boolean isEmpty = method.equals("GET") || method.equals("DELETE");
        HttpResponse<String> answer = CLIENT.send(
                request.header("Content-Type", type)
                        .method(
                                method,
                                isEmpty
                                        ? HttpRequest.BodyPublishers.noBody()
                                        : HttpRequest.BodyPublishers.ofByteArray(body))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
        if (answer.statusCode() == 401) {
            // A browser asks for the operator's key then.
            assertThat(answer.headers().allValues("WWW-Authenticate"))
                    .contains("Bearer")
                    .anyMatch(it -> it.startsWith("Basic realm="));
        }
        if (answer.statusCode() == 403 && path.startsWith("/fhir")) {
            assertThat(outcome(answer)).contains("scope");
        }
        if (answer.headers().firstValue("Content-Location").isPresent()) {
            String taken = URI.create(
                            answer.headers().firstValue("Content-Location").orElseThrow())
                    .getPath();
            answered(server, "DELETE", taken, login);
        }
        return answer.body().startsWith("{\"resourceType\":\"Bundle\"")
                ? answer.statusCode() + "/" + bundle(answer).getEntry().size()
                : Integer.toString(answer.statusCode());
    }

    private static String export(RunningServer server) throws Exception {
        HttpResponse<String> taken = CLIENT.send(
                server.request("/fhir/$export?_type=Flag")
                        .header("Prefer", "respond-async")
                        .build(),
                HttpResponse.BodyHandlers.ofString());
        String path = URI.create(taken.headers().firstValue("Content-Location").orElseThrow())
                .getPath();
        while (server.get(path).statusCode() == 202) {
            Thread.onSpinWait();
        }
        return path;
    }

    private static RunningServer start(TestDatabase database, AuthorizationServer tokens, String... further) {
        String[] settings = Arrays.copyOf(tokens.settings(), tokens.settings().length + further.length);
        System.arraycopy(further, 0, settings, tokens.settings().length, further.length);
        return RunningServer.start(database, settings);
    }

    private static void send(RunningServer server, String sample) {
        server.post("application/x-ndjson", Samples.events(sample));
        while (!server.get("/ledger").body().contains("\"casesBehind\":0")) {
            Thread.onSpinWait();
        }
    }

    private static String id(RunningServer server, String search) {
        return bundle(server.get(search)).getEntryFirstRep().getResource().getIdPart();
    }

    private static Bundle bundle(HttpResponse<String> answer) {
        return FhirContext.forR4Cached().newJsonParser().parseResource(Bundle.class, answer.body());
    }

    private static String outcome(HttpResponse<String> answer) {
        return FhirContext.forR4Cached()
                .newJsonParser()
                .parseResource(OperationOutcome.class, answer.body())
                .getIssueFirstRep()
                .getDiagnostics();
    }

    private static HttpResponse<String> get(RunningServer server, String path, String token) throws Exception {
        return CLIENT.send(
                HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + server.port() + path))
                        .header("Authorization", "Bearer " + token)
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }

    @Test
    void aTokenThatDoesNotHoldIsNobodys() throws Exception {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                AuthorizationServer tokens = AuthorizationServer.start();
                RunningServer server = start(database, tokens)) {
            assertThat(get(server, "/fhir/Patient", tokens.token("ben", "system/*.rs", "*"))
                            .statusCode())
                    .isEqualTo(200);
            for (Map.Entry<String, String> bad : badTokens(tokens).entrySet()) {
                HttpResponse<String> answer = get(server, "/fhir/Patient", bad.getValue());

                assertThat(answer.statusCode()).as(bad.getKey()).isEqualTo(401);
                assertThat(answer.headers().firstValue("WWW-Authenticate").orElseThrow())
                        .as(bad.getKey())
                        .isEqualTo("Bearer error=\"invalid_token\"");
                assertThat(outcome(answer)).as(bad.getKey()).startsWith("the access token does not count: ");
            }
            tokens.close();
            String unknown = AuthorizationServer.signed(Map.of("sub", "x"), AuthorizationServer.newKey("another"));
            HttpResponse<String> answer = get(server, "/fhir/Patient", unknown);
            assertThat(answer.statusCode()).isEqualTo(503);
            assertThat(answer.headers().firstValue("Retry-After")).isPresent();
            assertThat(outcome(answer)).contains("try again later");
        }
    }

    private static Map<String, String> badTokens(AuthorizationServer tokens) throws JOSEException {
        Map<String, Object> good = Map.of("sub", "ben", "scope", "system/*.rs", "facilities", List.of("*"));
        Map<String, String> bad = new LinkedHashMap<>();
        bad.put("no token", "x");
        bad.put("three parts of nothing", "a.b.c");
        bad.put("not signed", new PlainJWT(claims(good)).serialize());
        bad.put("signed with the public key as a secret", bySecret(tokens, good));
        bad.put(
                "signed with another key of that name",
                AuthorizationServer.signed(good, AuthorizationServer.newKey("2026")));
        bad.put(
                "signed with a key that is not published",
                AuthorizationServer.signed(good, AuthorizationServer.newKey("x")));
        bad.put("changed", changed(AuthorizationServer.signed(good, tokens.key())));
        Map<String, Object> wrong = new LinkedHashMap<>();
        wrong.put("exp", Date.from(Instant.now().minusSeconds(120)));
        wrong.put("nbf", Date.from(Instant.now().plusSeconds(120)));
        wrong.put("aud", "https://another.example");
        wrong.put("iss", "https://another.example");
        for (Map.Entry<String, Object> one : wrong.entrySet()) {
            bad.put("wrong " + one.getKey(), with(tokens, good, one.getKey(), one.getValue()));
        }
        for (String claim : List.of("exp", "aud", "iss", "facilities")) {
            bad.put("without " + claim, with(tokens, good, claim, ""));
        }
        bad.put("of nobody", with(tokens, Map.of("scope", "system/*.rs", "client_id", ""), "sub", ""));
        bad.put(
                "a sender of one patient and no facility",
                with(tokens, Map.of("sub", "x", "patient", "p"), "scope", "patient/*.rs role/sender"));
        bad.put(
                "an operator of one patient and no facility",
                with(tokens, Map.of("sub", "x", "patient", "p"), "scope", "role/operator"));
        bad.put("of one who is called as the operator", with(tokens, good, "sub", "operator"));
        bad.put("of a patient that it does not name", with(tokens, good, "scope", "patient/*.rs"));
        bad.put(
                "an operator of one facility",
                with(tokens, Map.of("sub", "x", "facilities", List.of("f")), "scope", "role/operator"));
        return bad;
    }

    private static JWTClaimsSet claims(Map<String, Object> claims) {
        JWTClaimsSet.Builder builder = new JWTClaimsSet.Builder()
                .issuer(AuthorizationServer.ISSUER)
                .audience(AuthorizationServer.AUDIENCE)
                .expirationTime(Date.from(Instant.now().plusSeconds(300)));
        claims.forEach(builder::claim);
        return builder.build();
    }

    private static String bySecret(AuthorizationServer tokens, Map<String, Object> good) throws JOSEException {
        SignedJWT token = new SignedJWT(
                new JWSHeader.Builder(JWSAlgorithm.HS256).keyID("2026").build(), claims(good));
        token.sign(new MACSigner(tokens.key().toPublicJWK().toJSONString().getBytes(UTF_8)));
        return token.serialize();
    }

    private static String changed(String token) {
        String[] parts = token.split("\\.");
        String claims = new String(Base64.getUrlDecoder().decode(parts[1]), UTF_8).replace("ben", "bea");
        return parts[0] + "." + Base64.getUrlEncoder().withoutPadding().encodeToString(claims.getBytes(UTF_8)) + "."
                + parts[2];
    }

    private static String with(AuthorizationServer tokens, Map<String, Object> good, String claim, Object value)
            throws JOSEException {
        Map<String, Object> claims = new LinkedHashMap<>(good);
        claims.put(claim, value);
        return AuthorizationServer.signed(claims, tokens.key());
    }

    @Test
    void aPatientsOwnTokenSeesHerCaseAlone() throws Exception {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                AuthorizationServer tokens = AuthorizationServer.start();
                RunningServer server = start(database, tokens)) {
            send(server, "referred");
            String hers = id(server, "/fhir/Patient");
            send(server, "settled");
            assertThat(bundle(server.get("/fhir/Patient")).getEntry()).hasSizeGreaterThan(1);

            String token = AuthorizationServer.signed(
                    Map.of("sub", "mother", "scope", "patient/*.rs", "patient", hers), tokens.key());

            assertThat(bundle(get(server, "/fhir/Patient", token)).getEntry())
                    .singleElement()
                    .satisfies(it -> assertThat(it.getResource().getIdPart()).isEqualTo(hers));
            // Each page of a history is made for whoever turns it.
            String next = bundle(server.get("/fhir/Observation/_history"))
                    .getLink("next")
                    .getUrl()
                    .replaceFirst("http://[^/]*", "");
            assertThat(bundle(get(server, next, token)).getEntry())
                    .isNotEmpty()
                    .allSatisfy(it -> assertThat(((Observation) it.getResource())
                                    .getSubject()
                                    .getReference())
                            .isEqualTo("Patient/" + hers));
            assertThat(get(server, "/cases", token).body()).isEqualTo("[\"marrowby-cross/MRX-2026-0048\"]");
            assertThat(get(server, CASE, token).statusCode()).isEqualTo(200);
        }
    }

    @EachDatabase
    void takesEventsOfTheSendersFacilityAloneAndKeepsTheOthers(TestDatabase database) throws Exception {
        try (AuthorizationServer tokens = AuthorizationServer.start();
                RunningServer server = start(database, tokens)) {
            String token = tokens.token("anna", "role/sender", FACILITY);
            String elsewhere = new String(Samples.events("settled"), UTF_8).split("\n")[0];

            HttpResponse<String> one = post(server, "application/json", elsewhere, token);
            assertThat(one.statusCode()).isEqualTo(403);
            assertThat(outcome(one)).contains("claim facilities");
            HttpResponse<String> several = post(
                    server,
                    "application/x-ndjson",
                    new String(Samples.events("referred"), UTF_8).strip() + "\n" + elsewhere,
                    token);
            assertThat(several.statusCode()).isEqualTo(200);
            assertThat(several.body()).contains("\"stored\":130", "\"refused\":30", "not-permitted");
            assertThat(server.get("/quarantine?reason=not-permitted").body()).contains("fernglade-hp");
        }
    }

    private static HttpResponse<String> post(RunningServer server, String type, String body, String token)
            throws Exception {
        return CLIENT.send(
                HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + server.port() + "/events"))
                        .header("Authorization", "Bearer " + token)
                        .header("Content-Type", type)
                        .POST(HttpRequest.BodyPublishers.ofString(body))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }

    @EachDatabase
    void writesDownWhoDidWhatBeforeHeIsAnswered(TestDatabase database) throws Exception {
        try (AuthorizationServer tokens = AuthorizationServer.start();
                RunningServer server = start(database, tokens)) {
            post(
                    server,
                    "application/x-ndjson",
                    new String(Samples.events("referred"), UTF_8),
                    tokens.token("anna", "role/sender", FACILITY, "quillhaven-dh"));
            while (!server.get("/ledger").body().contains("\"casesBehind\":0")) {
                Thread.onSpinWait();
            }
            String patient = id(server, "/fhir/Patient");
            Instant before = Instant.now();
            String ben = tokens.token("ben", "system/*.rs", FACILITY);
            get(server, "/fhir/Patient/" + patient, ben);
            get(server, "/fhir/Patient/" + patient + "/_history/1", ben);
            get(server, "/fhir/Observation?patient=" + patient, ben);
            get(server, "/fhir/Patient/" + patient + "/$everything", ben);
            get(server, CASE + "?as=document", ben);
            get(server, "/fhir/Patient/none", ben);

            List<AuditEvent> all = audit(server, "");
            assertThat(all.stream().filter(it -> it.getAction() == AuditEvent.AuditEventAction.C))
                    .singleElement()
                    .satisfies(it -> {
                        assertThat(it.getAgent().get(2).getName()).isEqualTo("anna");
                        assertThat(it.getAgent().get(0).getWho().getDisplay()).isEqualTo("tester");
                        assertThat(it.getAgent().get(0).getNetwork().getAddress())
                                .isEqualTo("127.0.0.1");
                        assertThat(it.getEntity())
                                .anyMatch(one -> "case/marrowby-cross/MRX-2026-0048".equals(one.getName()));
                        assertThat(it.getEntityFirstRep()
                                        .getDetailFirstRep()
                                        .getValue()
                                        .primitiveValue())
                                .isEqualTo("159");
                    });
            List<AuditEvent> bens = audit(server, "?date=ge" + before).stream()
                    .filter(it -> it.getAgent().get(2).getName().equals("ben"))
                    .toList();
            assertThat(bens.stream()
                            .map(it -> it.getAction().toCode() + " "
                                    + (it.hasSubtype() ? it.getSubtypeFirstRep().getCode() : "")
                                    + " " + it.getOutcome().toCode()))
                    .containsExactly(
                            "R read 4",
                            "R read 0",
                            "R  0",
                            "E operation 0",
                            "E search-type 0",
                            "R vread 0",
                            "R read 0");
            assertThat(bens.get(4).getEntity().get(1).getQuery()).isEqualTo(("patient=" + patient).getBytes(UTF_8));
            assertThat(bens.get(6).getEntityFirstRep().getWhat().getReference()).isEqualTo("Patient/" + patient);
            for (AuditEvent one : all) {
                assertThat(Conformance.stock().check(one).errors())
                        .as(FhirContext.forR4Cached().newJsonParser().encodeResourceToString(one))
                        .isEmpty();
            }
        }
        CommandRun verified = CommandRun.of(Stream.concat(Stream.of("verify"), database.commandOptions().stream())
                .toArray(String[]::new));
        assertThat(verified.code()).as(verified.out()).isZero();
        assertThat(verified.out()).containsPattern("[1-9]\\d* entries of the access log checked");
    }

    private static List<AuditEvent> audit(RunningServer server, String query) {
        Bundle page = bundle(server.get("/fhir/AuditEvent" + query + (query.isEmpty() ? "?" : "&") + "_count=500"));
        return page.getEntry().stream().map(it -> (AuditEvent) it.getResource()).toList();
    }

    @Test
    void theOperatorsKeyIsMadeOnceForItsOwnerAlone() throws IOException {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            Path file = database.settings().folder().resolve("operator-key");
            String first;
            try (RunningServer server = RunningServer.start(database)) {
                first = Files.readString(file);
                assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
                        .isEqualTo("rw-------");
                String wrong = Base64.getEncoder().encodeToString("operator:wrong".getBytes(UTF_8));
                assertThat(answered(server, "GET", "/cases", "Basic " + wrong)).isEqualTo("401");
                assertThat(server.get("/cases").statusCode()).isEqualTo(200);
            } catch (Exception e) {
                throw new IllegalStateException(e);
            }
            try (RunningServer again = RunningServer.start(database)) {
                assertThat(Files.readString(file)).isEqualTo(first);
                assertThat(again.get("/cases").statusCode()).isEqualTo(200);
            }
        }
    }

    @Test
    void listensOnANetworkOnlyWhereItIsEncrypted() {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE)) {
            assertThatThrownBy(() -> RunningServer.start(database, "--server.address=0.0.0.0"))
                    .rootCause()
                    .hasMessageContaining("without TLS")
                    .hasMessageContaining("server.ssl.bundle");
            assertThatThrownBy(() -> RunningServer.start(
                            database, "--tamponade.mllp.port=" + 0x7fff, "--tamponade.mllp.address=0.0.0.0"))
                    .rootCause()
                    .hasMessageContaining("tamponade.mllp.tls");
            try (RunningServer server =
                    RunningServer.start(database, "--server.address=0.0.0.0", "--tamponade.access.unencrypted=true")) {
                assertThat(server.get("/cases").statusCode()).isEqualTo(200);
            }
        }
    }

    @Test
    void whatNoAddressMayHoldIsRefusedInWords() throws Exception {
        try (TestDatabase database = TestDatabase.of(TestDatabase.Kind.SQLITE);
                RunningServer server = RunningServer.start(database)) {
            for (String path :
                    List.of("/cases//x", "/cases/a;b=c/x", "/cases/%2e%2e/x", "/fhir/Patient/%25", "/cases/a%0ab/x")) {
                HttpResponse<String> answer = server.get(path);

                assertThat(answer.statusCode()).as(path).isEqualTo(400);
                assertThat(outcome(answer)).as(path).contains("GET /");
            }
        }
    }
}
