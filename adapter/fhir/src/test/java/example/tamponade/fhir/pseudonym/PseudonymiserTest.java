package example.tamponade.fhir.pseudonym;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ca.uhn.fhir.context.FhirContext;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.Shared;
import example.tamponade.fhir.bundle.CaseBundles;
import example.tamponade.fhir.bundle.CaseView;
import example.tamponade.fhir.mapping.CaseMapper;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.StringType;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PseudonymiserTest {

    private static final FhirContext FHIR = FhirContext.forR4Cached();
    private static final PseudonymKey KEY = key("an invented key, for this test alone");
    private static final CaseBundles BUNDLES = new CaseBundles(Shared.TERMS, Shared.MAPPER);
    private static final Pattern TIMES = Pattern.compile("\\d{4}-\\d{2}-\\d{2}(T\\d{2}:\\d{2}(:\\d{2})?)?");

    private final CaseFile file = InventedCase.file();
    private final List<Resource> onRecord = Mapped.ofInventedCase().all();
    private final Pseudonymiser pseudonymiser = new Pseudonymiser(KEY, Shared.TERMS.base());
    private final List<Resource> others =
            pseudonymiser.of("case/" + file.caseId(), onRecord).of(onRecord);

    private static PseudonymKey key(String text) {
        return new PseudonymKey(text.getBytes(StandardCharsets.UTF_8));
    }

    private static String json(Resource resource) {
        return FHIR.newJsonParser().encodeResourceToString(resource);
    }

    private static String json(List<Resource> resources) {
        return String.join("\n", resources.stream().map(PseudonymiserTest::json).toList());
    }

    @Test
    void nothingThatTellsWhoseItIsIsLeft() throws Exception {
        String written = json(others);
        Set<String> telling = new TreeSet<>();
        for (Resource resource : onRecord) {
            collect("", new ObjectMapper().readTree(json(resource)), telling);
        }
        // The adapter's own words.
        telling.removeAll(Set.of(CaseMapper.CAUTION, "Nurse"));
        assertThat(telling).hasSizeGreaterThan(400);
        assertThat(telling).allSatisfy(it -> assertThat(written).doesNotContain(it));
    }

    // Ids, identifiers, names, digests, days, what was written freely: found by where it stands, not by what takes it
    // away.
    private static void collect(String path, JsonNode node, Set<String> telling) {
        if (node.isObject()) {
            if (node.has("display") && !node.has("code")) {
                telling.add(node.path("display").asText());
            }
            node.fields().forEachRemaining(it -> collect(path + "." + it.getKey(), it.getValue(), telling));
        } else if (node.isArray()) {
            node.forEach(it -> collect(path, it, telling));
        } else if (node.isTextual()) {
            String text = node.asText();
            boolean isTelling = path.matches(
                    ".*(\\.id|\\.source|[iI]dentifier\\.value|\\.lotNumber|\\.birthDate|"
                            + "\\.name\\.text|\\.contentString|\\.detail|\\.description|(?<!extension)\\.valueString|\\.valueUuid)");
            if (isTelling) {
                telling.add(text);
            }
            Matcher times = TIMES.matcher(text);
            while (times.find()) {
                telling.add(times.group());
            }
            Matcher references =
                    Pattern.compile("[A-Z][A-Za-z]+/([0-9a-f-]{36})").matcher(text);
            if (references.matches()) {
                telling.add(references.group(1));
            }
        }
    }

    @Test
    void whatIsLeftConformsAndSaysTheSameOfHerCare() {
        assertThat(Shared.CONFORMANCE.check(others).problems()).isEmpty();
        assertThat(others).hasSameSizeAs(onRecord);
        List<Observation> before = observations(onRecord);
        List<Observation> after = observations(others);
        OffsetDateTime first = time(before.get(0));
        OffsetDateTime moved = time(after.get(0));
        for (int i = 0; i < before.size(); i++) {
            Observation was = before.get(i);
            Observation is = after.get(i);
            assertThat(json(is.getCode())).isEqualTo(json(was.getCode()));
            assertThat(Duration.between(moved, time(is))).isEqualTo(Duration.between(first, time(was)));
            assertThat(time(is).toLocalTime()).isEqualTo(time(was).toLocalTime());
            if (was.getCode().getText().matches("Shock index|Cumulative blood loss|Pulse.*")) {
                assertThat(is.getValueQuantity().getValue())
                        .isEqualTo(was.getValueQuantity().getValue());
            }
        }
    }

    private static String json(org.hl7.fhir.r4.model.CodeableConcept concept) {
        return json(new Observation().setCode(concept));
    }

    private static List<Observation> observations(List<Resource> resources) {
        return resources.stream()
                .filter(it -> it instanceof Observation observation && observation.hasEffectiveDateTimeType())
                .map(Observation.class::cast)
                .toList();
    }

    private static OffsetDateTime time(Observation observation) {
        return OffsetDateTime.parse(observation.getEffectiveDateTimeType().getValueAsString());
    }

    @Test
    void theDocumentConformsInEveryViewAndNamesNobody() {
        for (CaseView view : CaseView.values()) {
            Bundle document = BUNDLES.pseudonymised(file, view, onRecord, pseudonymiser);
            assertThat(Shared.CONFORMANCE.check(document).problems())
                    .as(view.code())
                    .isEmpty();
            assertThat(json(document))
                    .doesNotContain(file.caseId().number(), file.caseId().facilityId(), "2026-03-0", "+05:45");
        }
    }

    // The steps and ends of the README's table.
    @ParameterizedTest
    @CsvSource({
        "29463-7, 62.4, 60",
        "29463-7, 66, 65",
        "29463-7, 31, 40",
        "29463-7, 163, 120",
        "8302-2, 158, 160",
        "8302-2, 201, 185",
        "estimated-blood-volume, 5579, 5500",
        "estimated-blood-volume, 1900, 2500",
        "gravida, 9, 5",
        "para, 2, 2",
        "shock-index, 1.37, 1.37"
    })
    void whatTellsOneMotherFromAnotherIsCoarse(String code, BigDecimal exact, BigDecimal coarse) {
        Observation observation = new Observation();
        observation.getCode().addCoding().setCode(code);
        observation.setValue(new Quantity().setValue(exact));
        Coarse.make(observation);
        assertThat(observation.getValueQuantity().getValue()).isEqualByComparingTo(coarse);
    }

    @ParameterizedTest
    @CsvSource({"13, 15", "27, 25", "28, 30", "52, 45"})
    void herAgeIsCoarse(BigDecimal exact, BigDecimal coarse) {
        Patient patient = new Patient();
        patient.addExtension(Shared.TERMS.profile("age-at-event"), new Quantity().setValue(exact));
        Coarse.make(patient);
        assertThat(((Quantity) patient.getExtension().get(0).getValue()).getValue())
                .isEqualByComparingTo(coarse);
    }

    // A facility may name its care protocol as itself.
    @Test
    void aFacilitysOwnCareProtocolIsNotNamed() {
        Observation observation = new Observation();
        observation.setId("0c0e5e17-0000-4000-8000-000000000001");
        observation.addExtension(
                Shared.TERMS.profile("care-protocol"), new StringType("hollowbrook-house-rules|3|abcdef"));
        String other = json(pseudonymiser.of("case/x", List.of(observation)).of(List.of(observation)));
        assertThat(other).contains("|3|").doesNotContain("hollowbrook", "abcdef");
        assertThat(json(others)).contains("common-practice|");
    }

    @Test
    void whatWasReferredToStillIs() {
        Set<String> names = new TreeSet<>();
        others.forEach(it -> names.add(it.fhirType() + "/" + it.getIdPart()));
        List<String> references = new ArrayList<>();
        others.forEach(it ->
                FHIR.newTerser().getAllPopulatedChildElementsOfType(it, org.hl7.fhir.r4.model.Reference.class).stream()
                        .filter(org.hl7.fhir.r4.model.Reference::hasReference)
                        .forEach(reference -> references.add(reference.getReference())));
        assertThat(references).hasSizeGreaterThan(100).allMatch(names::contains);
    }

    @Test
    void theSameKeyGivesTheSameAndAnotherDoesNot() {
        assertThat(json(pseudonymiser.of("case/" + file.caseId(), onRecord).of(onRecord)))
                .isEqualTo(json(others));
        Pseudonymiser another = new Pseudonymiser(key("another invented key, for this test"), Shared.TERMS.base());
        List<Resource> theirs = another.of("case/" + file.caseId(), onRecord).of(onRecord);
        assertThat(theirs.get(0).getIdPart()).isNotEqualTo(others.get(0).getIdPart());
        assertThat(json(theirs.get(0))).isNotEqualTo(json(others.get(0)));
    }

    @Test
    void whatIsOnRecordStaysAsItWas() {
        assertThat(json(onRecord)).isEqualTo(json(Mapped.ofInventedCase().all()));
    }

    @Test
    void aShortKeyIsRefusedWithTheRemedy() {
        assertThatThrownBy(() -> new PseudonymKey(new byte[31])).hasMessageContaining("openssl rand");
    }
}
