package example.tamponade.fhir.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.Shared;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.hl7.fhir.r4.model.Enumerations;
import org.hl7.fhir.r4.model.Location;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ConformanceTest {

    private static final Conformance CONFORMANCE = Shared.CONFORMANCE;
    private static final String PULSE = "vital-pulse";

    @Test
    void aGoodResourcePassesAndTheOutcomeSaysSo() {
        ConformanceReport report = CONFORMANCE.check(Mapped.ofInventedCase().observation("urine-output"));
        assertThat(report.passed()).isTrue();
        assertThat(report.toOutcome().getIssueFirstRep().getSeverity())
                .isEqualTo(OperationOutcome.IssueSeverity.INFORMATION);
    }

    @Test
    void aProblemNamesResourceAndPlace() {
        List<Resource> resources = new ArrayList<>(Mapped.ofInventedCase().all());
        Observation urine = new Mapped(resources).observation("urine-output");
        urine.getValueQuantity().setCode("L");
        ConformanceReport report = CONFORMANCE.check(resources);
        assertThat(report.passed()).isFalse();
        assertThat(report.errors()).isNotEmpty().allSatisfy(it -> {
            assertThat(it.resource()).isEqualTo("Observation/" + urine.getIdPart());
            assertThat(it.expression()).startsWith("Observation.value");
        });
        OperationOutcome outcome = report.toOutcome();
        assertThat(outcome.getIssueFirstRep().getSeverity()).isEqualTo(OperationOutcome.IssueSeverity.ERROR);
        assertThat(outcome.getIssueFirstRep().getExpression().get(0).getValue()).startsWith("Observation.value");
        assertThat(CONFORMANCE.check(outcome).passed()).isTrue();
    }

    @Test
    void aBadMotherFailsAloneNotWithAllWhoNameHer() {
        List<Resource> resources = Mapped.ofInventedCase().all();
        Patient mother = new Mapped(resources).one(Patient.class, "mother");
        mother.setGender(Enumerations.AdministrativeGender.MALE);
        assertThat(CONFORMANCE.check(resources).errors())
                .isNotEmpty()
                .allSatisfy(it -> assertThat(it.resource()).isEqualTo("Patient/" + mother.getIdPart()));
    }

    @Test
    void aReferenceToSomethingElseThanTheProfileAsksForFails() {
        Mapped mapped = Mapped.ofInventedCase();
        Location facility = mapped.one(Location.class, "facility");
        Observation urine = mapped.observation("urine-output");
        urine.setSubject(new Reference("Location/" + facility.getIdPart()));
        assertThat(CONFORMANCE.check(List.of(facility, urine)).passed()).isFalse();
    }

    // FHIR R4, references.html#literal: a relative reference is [type]/[id].
    @ParameterizedTest
    @ValueSource(strings = {"/1", "http://elsewhere.example/fhir//1", "http://elsewhere.example//1/_history/2"})
    void aReferenceWithoutATypeFailsWhoeverChecksIt(String reference) {
        String json = """
                {"resourceType": "Observation", "status": "final", "code": {"text": "x"}, "subject": {"reference": "%s"}}
                """.formatted(reference);
        assertThat(List.of(Conformance.stock(), Conformance.compiled()))
                .allSatisfy(it -> assertThat(it.check(json).errors())
                        .singleElement()
                        .satisfies(problem -> assertThat(problem.message()).contains("type before its id")));
    }

    @Test
    void aReferenceThatLeadsElsewhereIsNoProblem() {
        assertThat(CONFORMANCE
                        .check(List.of(Mapped.ofInventedCase().observation("urine-output")))
                        .problems())
                .isEmpty();
    }

    @Test
    void anUnknownProfileFails() {
        Observation urine = Mapped.ofInventedCase().observation("urine-output");
        urine.getMeta().getProfile().get(0).setValue(Shared.TERMS.profile("no-such-profile"));
        assertThat(CONFORMANCE.check(urine).passed()).isFalse();
    }

    @Test
    void linesAreCheckedEachUnderItsName() {
        List<Resource> resources = Mapped.ofInventedCase().all();
        String good = lines(resources);
        assertThat(CONFORMANCE.check(good).problems()).isEmpty();
        Observation pulse = new Mapped(resources).all(Observation.class, PULSE).get(0);
        pulse.setCode(null);
        ConformanceReport report = CONFORMANCE.check(lines(resources));
        assertThat(report.errors())
                .isNotEmpty()
                .allSatisfy(it -> assertThat(it.resource()).isEqualTo("Observation/" + pulse.getIdPart()));
    }

    @Test
    void aLineThatIsNotJsonHasItsPlaceAndARemedyAndTheOthersAreChecked() {
        Observation urine = Mapped.ofInventedCase().observation("urine-output");
        String good = Mapped.json(urine);
        urine.setValue(null);
        String text = good + "\n\n{\"resourceType\": \"Observation\",\n" + Mapped.json(urine) + "\n[1]\n";
        ConformanceReport report = CONFORMANCE.check(text);
        assertThat(report.errors()).extracting(Problem::resource).contains("line 3", "line 5");
        assertThat(report.errors())
                .filteredOn(it -> it.resource().equals("line 3"))
                .singleElement()
                .satisfies(it -> assertThat(it.message())
                        .startsWith("not JSON at column")
                        .contains("correct the text"));
        assertThat(report.errors()).anyMatch(it -> it.resource().equals("Observation/" + urine.getIdPart()));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "  \n ",
                "[]",
                "17",
                "\"text\"",
                "{}",
                "{\"id\": \"x\"}",
                "{\"resourceType\": 1}",
                "<Patient/>"
            })
    void whatIsNoResourceIsAProblemOfTheFirstLine(String text) {
        ConformanceReport report = CONFORMANCE.check(text);
        assertThat(report.errors())
                .singleElement()
                .satisfies(it -> assertThat(it.resource()).isEqualTo("line 1"));
    }

    @Test
    void brokenJsonOverSeveralLinesNamesTheLine() {
        ConformanceReport report = CONFORMANCE.check("{\n \"resourceType\": \"Patient\",\n \"gender\": female\n}");
        assertThat(report.errors())
                .singleElement()
                .satisfies(it -> assertThat(it.resource()).isEqualTo("line 3"));
    }

    @Test
    void aPropertyThatComesTwiceIsNotJson() {
        ConformanceReport report =
                CONFORMANCE.check("{\"resourceType\":\"Patient\",\"gender\":\"female\",\"gender\":\"male\"}");
        assertThat(report.errors())
                .singleElement()
                .satisfies(it -> assertThat(it.message()).contains("gender"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{\"resourceType\":\"Patent\"}",
                "{\"resourceType\":\"Patient\",\"gendre\":\"female\"}",
                "{\"resourceType\":\"Patient\",\"birthDate\":\"12 April\"}",
                "{\"resourceType\":\"Patient\",\"name\":\"Wren\"}"
            })
    void jsonThatIsNotFhirFails(String text) {
        assertThat(CONFORMANCE.check(text).passed()).isFalse();
    }

    @Test
    void moreResourcesThanOneRunTakesAreAllChecked() {
        List<Resource> many = new ArrayList<>();
        Observation urine = Mapped.ofInventedCase().observation("urine-output");
        for (int i = 0; i < 230; i++) {
            Observation copy = urine.copy();
            copy.setId("urine-" + i);
            many.add(copy);
        }
        ((Observation) many.get(229)).setValue(null);
        assertThat(CONFORMANCE.check(many).errors())
                .isNotEmpty()
                .allSatisfy(it -> assertThat(it.resource()).isEqualTo("Observation/urine-229"));
    }

    @Test
    void theSameResourceTwiceIsNoProblem() {
        Observation urine = Mapped.ofInventedCase().observation("urine-output");
        assertThat(CONFORMANCE.check(List.of(urine, urine)).problems()).isEmpty();
    }

    @Test
    void nothingToCheckPasses() {
        assertThat(CONFORMANCE.check(List.of()).passed()).isTrue();
    }

    @Test
    void severalThreadsMayCheckAtOnce() {
        Observation urine = Mapped.ofInventedCase().observation("urine-output");
        assertThat(IntStream.range(0, 16).parallel().mapToObj(it -> CONFORMANCE.check(urine.copy())))
                .allSatisfy(it -> assertThat(it.problems()).isEmpty());
    }

    private static String lines(List<Resource> resources) {
        return resources.stream().map(Mapped::json).collect(Collectors.joining("\n"));
    }
}
