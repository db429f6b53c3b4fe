package example.tamponade.fhir.mapping;

import static example.tamponade.fhir.Checks.assertQuantity;
import static example.tamponade.fhir.Checks.codes;
import static example.tamponade.fhir.Checks.component;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.event.Consciousness;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.Shared;
import example.tamponade.fhir.terms.Narratives;
import java.math.BigDecimal;
import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.DetectedIssue;
import org.hl7.fhir.r4.model.Observation;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class VitalSignsMapperTest {

    private final Mapped mapped = Mapped.of(new VitalSigns(
            new BigDecimal("118"),
            new BigDecimal("92"),
            new BigDecimal("55"),
            null,
            new BigDecimal("24"),
            new BigDecimal("96"),
            new BigDecimal("36.4"),
            Consciousness.V));

    // Codes and units as the vital signs profiles of FHIR R4 fix them.
    @ParameterizedTest
    @CsvSource({
        "vital-pulse, loinc.org#8867-4, 118, /min",
        "vital-respirations, loinc.org#9279-1, 24, /min",
        "vital-temperature, loinc.org#8310-5, 36.4, Cel"
    })
    void eachSignHasTheCodeAndUnitOfItsProfile(String profile, String code, String value, String unit) {
        Observation observation = mapped.observation(profile);
        assertThat(codes(observation.getCode())).containsExactly(code);
        assertQuantity(observation.getValue(), value, unit);
        assertThat(codes(observation.getCategoryFirstRep())).containsExactly("observation-category#vital-signs");
        assertThat(observation.getStatus()).isEqualTo(Observation.ObservationStatus.FINAL);
    }

    @Test
    void saturationNamesTheOximeterBesideTheCodeOfTheProfile() {
        Observation saturation = mapped.observation("vital-oxygen-saturation");
        assertThat(codes(saturation.getCode())).containsExactly("loinc.org#2708-6", "loinc.org#59408-5");
        assertQuantity(saturation.getValue(), "96", "%");
    }

    @Test
    void pressureIsAPanel() {
        Observation pressure = mapped.observation("vital-blood-pressure");
        assertThat(codes(pressure.getCode())).containsExactly("loinc.org#85354-9");
        assertThat(pressure.hasValue()).isFalse();
        assertQuantity(component(pressure, "8480-6").getValue(), "92", "mm[Hg]");
        assertQuantity(component(pressure, "8462-4").getValue(), "55", "mm[Hg]");
    }

    @Test
    void consciousnessIsAnAnswerOfOurList() {
        Observation consciousness = mapped.observation("consciousness");
        assertThat(codes(consciousness.getCode())).containsExactly("loinc.org#67775-7", "bedside-item#consciousness");
        assertThat(codes(consciousness.getValue())).containsExactly("consciousness#V");
        assertThat(((CodeableConcept) consciousness.getValue()).getText()).isEqualTo("Responds to voice");
    }

    @Test
    void aPressureThatCouldNotBeHeardIsAPanelThatSaysSo() {
        Mapped unheard = Mapped.of(new VitalSigns(new BigDecimal("140"), null, null, true, null, null, null, null));
        Observation pressure = unheard.observation("vital-blood-pressure");
        for (String part : List.of("8480-6", "8462-4")) {
            assertThat(component(pressure, part).hasValue()).isFalse();
            assertThat(codes(component(pressure, part).getDataAbsentReason()))
                    .containsExactly("data-absent-reason#unknown", "bedside-item#pressure-unrecordable");
        }
        assertThat(Narratives.text(pressure.getText())).contains("could not be heard or felt");
        assertThat(Shared.CONFORMANCE.check(unheard.all()).problems()).isEmpty();
    }

    @Test
    void aSystolicPressureAloneLeavesTheDiastolicAbsent() {
        Mapped palpated = Mapped.of(new VitalSigns(null, new BigDecimal("84"), null, null, null, null, null, null));
        Observation pressure = palpated.observation("vital-blood-pressure");
        assertQuantity(component(pressure, "8480-6").getValue(), "84", "mm[Hg]");
        assertThat(codes(component(pressure, "8462-4").getDataAbsentReason()))
                .containsExactly("data-absent-reason#unknown");
        assertThat(Shared.CONFORMANCE.check(palpated.all()).problems()).isEmpty();
    }

    @Test
    void onlyTheImplausibleValueIsMarked() {
        Mapped doubtful = Mapped.of(
                new VitalSigns(new BigDecimal("235"), null, null, null, null, new BigDecimal("97"), null, null));
        assertThat(Mapped.tags(doubtful.observation("vital-pulse"))).containsExactly("implausible-value");
        assertThat(Mapped.tags(doubtful.observation("vital-oxygen-saturation"))).isEmpty();
        DetectedIssue issue = doubtful.all(DetectedIssue.class, "record-issue").stream()
                .filter(it -> it.getCode().getCodingFirstRep().getCode().equals("implausible-value"))
                .findFirst()
                .orElseThrow();
        assertThat(issue.getImplicated()).hasSize(1);
        assertThat(doubtful.at(issue.getImplicatedFirstRep())).isSameAs(doubtful.observation("vital-pulse"));
    }
}
