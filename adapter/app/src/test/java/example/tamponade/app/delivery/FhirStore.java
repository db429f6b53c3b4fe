package example.tamponade.app.delivery;

import ca.uhn.fhir.context.FhirContext;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import com.sun.net.httpserver.HttpsConfigurator;
import com.sun.net.httpserver.HttpsParameters;
import com.sun.net.httpserver.HttpsServer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Queue;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.Executors;
import java.util.function.Function;
import java.util.function.Predicate;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLParameters;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Resource;

/**
 * What a FHIR server does with a transaction, in memory: all or nothing, references must lead to something, versions are
 * counted and a wrong one is refused (FHIR R4, RESTful API, 3.1.0.11 and 3.1.0.5). It keeps every version and can answer
 * otherwise when told to.
 */
final class FhirStore implements AutoCloseable {

    /**
     * An answer in place of what the server would do.
     *
     * @param status its HTTP status
     * @param type its media type
     * @param body its body
     * @param retryAfter how many seconds it asks to wait; empty: it does not say
     */
    record Other(int status, String type, String body, String retryAfter) {

        static Other status(int status) {
            return new Other(status, "text/plain", "", "");
        }
    }

    private static final String FHIR_JSON = "application/fhir+json";

    private final FhirContext fhir = FhirContext.forR4Cached();
    private final HttpServer server;
    private final Map<String, List<String>> versions = new TreeMap<>();
    private final Queue<Other> others = new ConcurrentLinkedQueue<>();
    private volatile Function<Bundle, Other> rule = bundle -> null;
    private volatile Predicate<String> letsIn = authorization -> true;
    private int transactions;
    private int largest;

    private FhirStore(HttpServer server) {
        this.server = server;
    }

    static FhirStore start() {
        try {
            return start(HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Starts one that speaks TLS and asks who comes for a certificate. */
    static FhirStore start(SSLContext tls) throws IOException {
        HttpsServer server = HttpsServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.setHttpsConfigurator(new HttpsConfigurator(tls) {
            @Override
            public void configure(HttpsParameters parameters) {
                SSLParameters demanding = tls.getDefaultSSLParameters();
                demanding.setNeedClientAuth(true);
                parameters.setSSLParameters(demanding);
            }
        });
        return start(server);
    }

    private static FhirStore start(HttpServer server) {
        FhirStore store = new FhirStore(server);
        server.createContext("/fhir", store::handle);
        server.setExecutor(Executors.newCachedThreadPool());
        server.start();
        return store;
    }

    int port() {
        return server.getAddress().getPort();
    }

    /** Answers the next requests so, one each. */
    void answer(Other... next) {
        others.addAll(List.of(next));
    }

    /** Answers transactions so for which the rule has an answer. */
    void answerBy(Function<Bundle, Other> answered) {
        rule = answered;
    }

    /** Lets in whose Authorization header passes. */
    void demand(Predicate<String> authorized) {
        letsIn = authorized;
    }

    /** Every version of every resource, as JSON, by its name. */
    synchronized Map<String, List<String>> versions() {
        Map<String, List<String>> copy = new TreeMap<>();
        versions.forEach((name, contents) -> copy.put(name, List.copyOf(contents)));
        return copy;
    }

    /** The latest version of every resource. */
    synchronized Map<String, String> latest() {
        Map<String, String> latest = new TreeMap<>();
        versions.forEach((name, contents) -> latest.put(name, contents.get(contents.size() - 1)));
        return latest;
    }

    /** Puts another version in place, as somebody else would. */
    synchronized void change(String name, String json) {
        versions.get(name).add(json);
    }

    /** Loses everything. */
    synchronized void lose() {
        versions.clear();
    }

    /** Loses everything but what it had then, as a server that is restored from a copy. */
    synchronized void goBackTo(Map<String, List<String>> then) {
        versions.clear();
        then.forEach((name, all) -> versions.put(name, new ArrayList<>(all)));
    }

    synchronized int transactions() {
        return transactions;
    }

    /** How many entries the largest transaction had. */
    synchronized int largest() {
        return largest;
    }

    private void handle(HttpExchange exchange) throws IOException {
        try (exchange) {
            Bundle asked = (Bundle) fhir.newJsonParser()
                    .parseResource(new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8));
            boolean isLetIn = letsIn.test(exchange.getRequestHeaders().getFirst("Authorization"));
            Other other = isLetIn ? others.poll() : Other.status(401);
            if (other == null && asked.getType() == Bundle.BundleType.TRANSACTION) {
                other = rule.apply(asked);
            }
            Other answer = other == null ? take(asked) : other;
            byte[] body = answer.body().getBytes(StandardCharsets.UTF_8);
            exchange.getResponseHeaders().set("Content-Type", answer.type());
            if (!answer.retryAfter().isEmpty()) {
                exchange.getResponseHeaders().set("Retry-After", answer.retryAfter());
            }
            exchange.sendResponseHeaders(answer.status(), body.length == 0 ? -1 : body.length);
            if (body.length > 0) {
                exchange.getResponseBody().write(body);
            }
        }
    }

    private synchronized Other take(Bundle asked) {
        return asked.getType() == Bundle.BundleType.BATCH ? reads(asked) : transaction(asked);
    }

    private Other reads(Bundle asked) {
        Bundle answer = new Bundle().setType(Bundle.BundleType.BATCHRESPONSE);
        asked.getEntry().forEach(it -> {
            List<String> contents = versions.get(it.getRequest().getUrl());
            answer.addEntry().getResponse().setStatus(contents == null ? "404" : "200");
            if (contents != null) {
                answer.getEntry()
                        .get(answer.getEntry().size() - 1)
                        .getResponse()
                        .setEtag("W/\"" + contents.size() + "\"");
            }
        });
        return ok(answer);
    }

    private Other transaction(Bundle asked) {
        transactions++;
        largest = Math.max(largest, asked.getEntry().size());
        Map<String, Resource> put = new HashMap<>();
        for (Bundle.BundleEntryComponent entry : asked.getEntry()) {
            String name = entry.getRequest().getUrl();
            String expected = entry.getRequest().getIfMatch();
            List<String> there = versions.get(name);
            if (expected != null && (there == null || !expected.equals("W/\"" + there.size() + "\""))) {
                return problem(412, name + " is of another version");
            }
            put.put(name, entry.getResource());
        }
        Set<String> known = new HashSet<>(versions.keySet());
        known.addAll(put.keySet());
        for (Map.Entry<String, Resource> entry : put.entrySet()) {
            List<String> missing = fhir.newTerser().getAllResourceReferences(entry.getValue()).stream()
                    .map(it -> it.getResourceReference().getReferenceElement().getValue())
                    .filter(it -> it != null && !it.startsWith("Patient?identifier=") && !known.contains(it))
                    .toList();
            if (!missing.isEmpty()) {
                return problem(400, entry.getKey() + " points to " + missing + ", which is not here");
            }
        }
        Bundle answer = new Bundle().setType(Bundle.BundleType.TRANSACTIONRESPONSE);
        for (Bundle.BundleEntryComponent entry : asked.getEntry()) {
            List<String> contents = versions.computeIfAbsent(entry.getRequest().getUrl(), key -> new ArrayList<>());
            String json = fhir.newJsonParser().encodeResourceToString(entry.getResource());
            if (contents.isEmpty() || !contents.get(contents.size() - 1).equals(json)) {
                contents.add(json);
            }
            answer.addEntry().getResponse().setStatus("200 OK").setEtag("W/\"" + contents.size() + "\"");
        }
        return ok(answer);
    }

    private Other ok(Bundle answer) {
        return new Other(200, FHIR_JSON, fhir.newJsonParser().encodeResourceToString(answer), "");
    }

    /** An answer that says what is wrong. */
    Other problem(int status, String words) {
        OperationOutcome outcome = new OperationOutcome();
        outcome.addIssue()
                .setSeverity(OperationOutcome.IssueSeverity.ERROR)
                .setCode(OperationOutcome.IssueType.PROCESSING)
                .setDiagnostics(words);
        return new Other(status, FHIR_JSON, fhir.newJsonParser().encodeResourceToString(outcome), "");
    }

    @Override
    public void close() {
        server.stop(0);
    }
}
