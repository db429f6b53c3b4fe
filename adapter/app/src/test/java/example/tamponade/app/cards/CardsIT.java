package example.tamponade.app.cards;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import example.tamponade.app.Samples;
import example.tamponade.app.database.EachDatabase;
import example.tamponade.app.database.TestDatabase;
import example.tamponade.app.serve.RunningServer;
import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.hl7.fhir.r4.model.Bundle;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Cards as CDS Hooks 2.0 has them: Discovery, HTTP Request, CDS Service Response, Feedback. */
class CardsIT {

    @EachDatabase
    void eachWarningThatStandsIsACard(TestDatabase where) {
        try (RunningServer server = RunningServer.start(where)) {
            server.post("application/x-ndjson", Samples.events("referred"));
            while (!server.get("/ledger").body().contains("\"casesBehind\":0")) {
                Thread.onSpinWait();
            }
            String patient = bundle(server, "/fhir/Patient")
                    .getEntryFirstRep()
                    .getResource()
                    .getIdPart();
            JsonNode services = JsonMapper.shared()
                    .readTree(server.get("/cds-services").body())
                    .required("services");
            List<String> hooks = new ArrayList<>();
            for (JsonNode service : services) {
                assertThat(service.required("description").asString()).contains("not a medical device");
                String id = service.required("id").asString();
                String hook = service.required("hook").asString();
                hooks.add(hook);
                HttpResponse<String> answer = ask(server, id, hook, patient);
                assertThat(answer.statusCode()).isEqualTo(200);
                JsonNode cards = JsonMapper.shared().readTree(answer.body()).required("cards");
                Bundle standing = bundle(server, "/fhir/Flag?patient=" + patient + "&status=active&_count=500");
                assertThat(cards).isNotEmpty().hasSize(standing.getEntry().size());
                List<String> ids = new ArrayList<>();
                List<String> indicators = new ArrayList<>();
                for (JsonNode card : cards) {
                    ids.add(card.required("uuid").asString());
                    indicators.add(card.required("indicator").asString());
                    assertThat(card.required("summary").asString()).isNotEmpty().hasSizeLessThan(140);
                    assertThat(card.required("source").required("label").asString())
                            .isNotEmpty();
                    assertThat(card.required("detail").asString()).contains("Rule: ", "not a medical device");
                    String link = card.required("links").get(0).required("url").asString();
                    assertThat(server.get(link.replaceFirst("http://[^/]*", "")).statusCode())
                            .isEqualTo(200);
                }
                assertThat(ids)
                        .containsExactlyInAnyOrderElementsOf(standing.getEntry().stream()
                                .map(it -> it.getResource().getIdPart())
                                .toList());
                assertThat(indicators.get(0)).isEqualTo("critical");
                assertThat(indicators)
                        .isSortedAccordingTo(java.util.Comparator.comparing(
                                it -> List.of("critical", "warning", "info").indexOf(it)));
                assertThat(feedback(server, id, ids.get(0)).statusCode()).isEqualTo(200);
                assertThat(feedback(server, id, "x").statusCode()).isEqualTo(400);
                String many = "{\"feedback\":["
                        + "{\"card\":\"%s\",\"outcome\":\"accepted\"},"
                                .formatted(ids.get(0))
                                .repeat(101) + "{}]}";
                assertThat(server.post(
                                        "/cds-services/" + id + "/feedback",
                                        "application/json",
                                        many.replace(",{}]", "]").getBytes(UTF_8))
                                .body())
                        .contains("more than 100 cards");
            }
            assertThat(hooks).containsExactlyInAnyOrder("patient-view", "encounter-discharge");
            assertThat(server.get("/fhir/AuditEvent?_count=500").body())
                    .contains("cds-services/open-warnings/feedback");
            assertThat(ask(server, "open-warnings", "order-sign", patient).statusCode())
                    .isEqualTo(400);
            assertThat(ask(server, "open-warnings", "patient-view", "").statusCode())
                    .isEqualTo(400);
            assertThat(ask(server, "none", "patient-view", patient).statusCode())
                    .isEqualTo(404);
            // Nothing is known of her: that is not that nothing is wrong.
            assertThat(ask(server, "open-warnings", "patient-view", "none").statusCode())
                    .isEqualTo(404);
            assertThat(server.post("/cds-services/open-warnings", "application/json", "{".getBytes(UTF_8))
                            .statusCode())
                    .isEqualTo(400);
        }
    }

    @EachDatabase
    void noWarningIsNoReassurance(TestDatabase where) {
        try (RunningServer server = RunningServer.start(where)) {
            String opening = new String(Samples.events("settled"), UTF_8)
                    .lines()
                    .filter(it -> it.contains("\"case-opened\""))
                    .findFirst()
                    .orElseThrow();
            assertThat(server.post(opening).statusCode()).isEqualTo(201);
            while (!server.get("/ledger").body().contains("\"casesBehind\":0")) {
                Thread.onSpinWait();
            }
            String patient = bundle(server, "/fhir/Patient")
                    .getEntryFirstRep()
                    .getResource()
                    .getIdPart();

            assertThat(ask(server, "open-warnings", "patient-view", patient).body())
                    .contains("what was not recorded is not known", "not a medical device");
        }
    }

    private static Bundle bundle(RunningServer server, String path) {
        return FhirContext.forR4Cached()
                .newJsonParser()
                .parseResource(Bundle.class, server.get(path).body());
    }

    private static HttpResponse<String> ask(RunningServer server, String id, String hook, String patient) {
        String request = """
                {"hook":"%s","hookInstance":"%s","context":{"userId":"Practitioner/7","patientId":"%s","encounterId":"8"}}
                """.formatted(hook, UUID.randomUUID(), patient);
        return server.post("/cds-services/" + id, "application/json", request.getBytes(UTF_8));
    }

    private static HttpResponse<String> feedback(RunningServer server, String id, String card) {
        String body = "{\"feedback\":[{\"card\":\"" + card
                + "\",\"outcome\":\"overridden\",\"outcomeTimestamp\":\"2026-03-03T16:00:00Z\"}]}";
        return server.post("/cds-services/" + id + "/feedback", "application/json", body.getBytes(UTF_8));
    }
}
