package example.tamponade.app.response;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.app.Formats;
import example.tamponade.app.SampleCases;
import example.tamponade.app.Samples;
import example.tamponade.app.intake.Intake;
import example.tamponade.app.intake.Piece;
import example.tamponade.app.intake.Reason;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.CaseId;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.conformance.Conformance;
import example.tamponade.fhir.terms.EventForm;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Page names are those of FHIR R4, http://hl7.org/fhir/R4. */
class ResponseFormatTest {

    private static final ResponseFormat FORMAT = new ResponseFormat(EventForm.read(), Formats.EVENTS);
    private static final String VOLUME =
            "\"valueQuantity\":{\"value\":350,\"system\":\"http://unitsofmeasure.org\",\"code\":\"mL\"}";
    private static final String BEDSIDE = new String(Samples.response("two-events.json"), StandardCharsets.UTF_8);

    @Test
    void theCaseOnFormsGivesTheFactsOfTheCaseAsEvents() {
        List<Piece> pieces = Formats.pieces(FORMAT, Samples.response("settled.ndjson"));
        List<EventEnvelope> events = Formats.events(pieces);

        assertThat(events).containsExactlyInAnyOrderElementsOf(SampleCases.events("settled"));
        CaseFile file = CaseFile.of(
                new CaseId("fernglade-hp", "FGL-2026-0117"),
                CareProtocol.standard(),
                events.stream().filter(it -> it.caseId() != null).toList());
        assertThat(file.facts()).isEqualTo(SampleCases.file("settled").facts());
    }

    /** The validator of HAPI FHIR holds the answers to the published form. */
    @Test
    void theSamplesAreAnswersToThePublishedForm() {
        Conformance conformance = Conformance.stock();
        String line = new String(Samples.response("settled.ndjson"), StandardCharsets.UTF_8)
                .lines()
                .reduce((first, last) -> last)
                .orElseThrow();

        assertThat(conformance.check(BEDSIDE).errors()).isEmpty();
        assertThat(conformance.check(line).errors()).isEmpty();
        assertThat(conformance
                        .check(BEDSIDE.replace("\"graduated-drape\"", "\"bucket\""))
                        .errors())
                .isNotEmpty();
        assertThat(conformance
                        .check(BEDSIDE.replace("blood-loss.method", "blood-loss.way"))
                        .errors())
                .isNotEmpty();
    }

    /** QuestionnaireResponse.status: value set questionnaire-answers-status. */
    @ParameterizedTest
    @CsvSource({
        "completed, event",
        "amended, refused",
        "entered-in-error, retraction",
        "in-progress, refused",
        "stopped, refused"
    })
    void takesWhatIsFinishedByItsStatus(String status, String outcome) {
        List<Piece> before = Formats.pieces(FORMAT, BEDSIDE);
        List<Piece> pieces = Formats.pieces(FORMAT, BEDSIDE.replace("\"completed\"", "\"" + status + "\""));

        assertThat(pieces).hasSize(2).allMatch(it -> kind(it).equals(outcome));
        if (outcome.equals("retraction")) {
            assertThat(Formats.events(pieces))
                    .extracting(EventEnvelope::retracts)
                    .containsExactlyElementsOf(Formats.events(before).stream()
                            .map(EventEnvelope::eventId)
                            .toList());
        }
    }

    private static String kind(Piece piece) {
        return piece.intake() instanceof Intake.Taken taken
                ? taken.event().retracts() == null ? "event" : "retraction"
                : "refused";
    }

    /** Each line: what is spoilt, where the reason is, its code. Answers by type: page Questionnaire, item.type. */
    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            quoteCharacter = '\0',
            value = {
                VOLUME + "; \"valueString\":\"350\"; event 1, blood-loss.volumeMl; wrong-type",
                VOLUME + "; \"valueQuantity\":{\"value\":350,\"system\":\"http://unitsofmeasure.org\",\"code\":\"kg\"};"
                        + " event 1, blood-loss.volumeMl; wrong-unit",
                VOLUME + "; \"valueQuantity\":{\"value\":350,\"comparator\":\">\",\"code\":\"mL\"};"
                        + " event 1, blood-loss.volumeMl; invalid-value",
                VOLUME + "; \"valueDecimal\":-350; event 1, blood-loss.volumeMl; impossible-value",
                "\"code\":\"graduated-drape\"; \"code\":\"bucket\"; event 1, blood-loss.method; not-in-list",
                "/CodeSystem/loss-method; /CodeSystem/loss-reading; event 1, blood-loss.method; not-in-list",
                "\"linkId\":\"blood-loss.method\"; \"linkId\":\"blood-loss.way\"; event 1, blood-loss.way; unknown-property",
                "\"linkId\":\"blood-loss.method\"; \"linkId\":\"urine.volumeMl\"; event 1, urine.volumeMl; unknown-property",
                "\"code\":\"blood-loss\"; \"code\":\"urine\"; event 1, blood-loss; invalid-value",
                "\"linkId\":\"facilityId\"; \"linkId\":\"facility\"; facility; unknown-property",
                "T23:58:00+05:45; T23:58:00; event 1, occurredAt; time-without-offset",
                "/Questionnaire/bedside-events; /Questionnaire/other; QuestionnaireResponse.questionnaire; not-supported",
                "\"identifier\"; \"unknown\"; the resource; unknown-property",
                "\"value\":\"ward-7\"; \"use\":\"usual\"; QuestionnaireResponse.identifier; missing-property"
            })
    void namesTheItemThatIsWrong(String found, String put, String place, String code) {
        assertThat(BEDSIDE).contains(found);
        Piece piece = Formats.pieces(FORMAT, BEDSIDE.replace(found, put)).get(0);

        assertThat(Formats.reasons(piece))
                .as(String.valueOf(piece.intake()))
                .anyMatch(it -> place.equals(it.place()) && it.code().code().equals(code));
        assertThat(Formats.reasons(piece)).extracting(Reason::remedy).allMatch(it -> !it.isBlank());
    }

    @Test
    void aCaseOfAnotherFacilityIsNamed() {
        String item = "{\"linkId\":\"facilityId\"";
        String another = "{\"linkId\":\"caseFacility\",\"answer\":[{\"valueString\":\"sorrelwick-ch\"}]},";
        assertThat(Formats.events(Formats.pieces(FORMAT, BEDSIDE.replace(item, another + item))))
                .extracting(EventEnvelope::caseId)
                .containsOnly(new CaseId("sorrelwick-ch", "FGL-2026-0117"));
    }

    @Test
    void whatIsWrongInOneEventLeavesTheOtherWhole() {
        List<Piece> pieces = Formats.pieces(FORMAT, BEDSIDE.replace(VOLUME, "\"valueDecimal\":-1"));
        assertThat(pieces).extracting(ResponseFormatTest::kind).containsExactly("refused", "event");
    }

    @Test
    void convertsAnAmountFromTheUnitThatCameWithIt() {
        String litres = "\"valueQuantity\":{\"value\":0.35,\"system\":\"http://unitsofmeasure.org\",\"code\":\"L\"}";
        List<EventEnvelope> events = Formats.events(Formats.pieces(FORMAT, BEDSIDE.replace(VOLUME, litres)));
        assertThat(events.get(0).data())
                .hasToString(Formats.events(Formats.pieces(FORMAT, BEDSIDE))
                        .get(0)
                        .data()
                        .toString());
    }

    @Test
    void theOriginalOfASecondEventIsTheSameEventAgain() {
        Piece second = Formats.pieces(FORMAT, BEDSIDE).get(1);
        List<Piece> again = Formats.pieces(FORMAT, second.original().bytes());
        assertThat(again).hasSize(1);
        assertThat(again.get(0).intake()).isEqualTo(second.intake());
        assertThat(again.get(0).place()).contains("event 2");
    }
}
