package example.tamponade.core.casefile;

import static example.tamponade.core.casefile.Bedside.event;
import static example.tamponade.core.casefile.Bedside.given;
import static example.tamponade.core.casefile.Bedside.pressureUnrecordable;
import static example.tamponade.core.casefile.Bedside.urine;
import static example.tamponade.core.casefile.Bedside.vitals;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.derivation.FactValue;
import example.tamponade.core.event.Analyte;
import example.tamponade.core.event.BloodProduct;
import example.tamponade.core.event.BloodProductGiven;
import example.tamponade.core.event.Consciousness;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.Laboratory;
import example.tamponade.core.event.Substance;
import example.tamponade.core.event.VitalSigns;
import example.tamponade.core.protocol.CareProtocol;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** WHO 2011 and Oladapo 2009, table 2: which criteria of a near miss a case has met. */
class CaseNearMissTest {

    // Oladapo 2009: systolic 84 for 60 min, pulse 122, 2.5 L given; five units; 29, 28, 27 and 25 mL of urine an hour.
    @ParameterizedTest
    @CsvSource({"60,122,2500,true", "59,122,2500,false", "60,119,2500,false", "60,122,2000,false"})
    void shockIsANearMissOnlyWhenAllOfItIsThere(int lasting, int pulse, int givenMl, boolean met) {
        CaseFile file = file(
                event("f", 0, given(Substance.CRYSTALLOID, givenMl, "mL")),
                event("v1", 1, vitals(pulse, 84, 50)),
                event("v2", 1 + lasting, vitals(pulse, 84, 50)));

        assertThat(met(file)).isEqualTo(met ? List.of("shock") : List.of());
    }

    @Test
    void eachCriterionOfANearMissIsSaidOnce() {
        CaseFile file = file(
                event("p1", 0, new BloodProductGiven(BloodProduct.RED_CELLS, 4, new BigDecimal(1100))),
                event("u1", 60, urine(29, 0, 60)),
                event("u2", 120, urine(28, 60, 120)),
                event("u3", 180, urine(27, 120, 180)),
                event("u4", 240, urine(25, 180, 240)),
                event("p2", 241, new BloodProductGiven(BloodProduct.WHOLE_BLOOD, 1, new BigDecimal(450))),
                event("v", 242, new VitalSigns(null, null, null, null, new BigDecimal(41), null, null, null)),
                event("l", 243, new Laboratory(Analyte.PLATELETS, new BigDecimal(49), "10*9/L")),
                event("m", 244, new Laboratory(Analyte.PLATELETS, new BigDecimal(48), "10*9/L")));

        assertThat(met(file)).containsExactly("transfusion", "oliguria", "fast-breathing", "thrombocytopenia");
        assertThat(file.facts())
                .filteredOn(it -> it instanceof DerivedValue value && value.kind() == FactKind.NEAR_MISS_CRITERIA)
                .hasSize(4);
    }

    private static List<String> met(CaseFile file) {
        return file.facts().stream()
                .filter(it -> it instanceof DerivedValue value && value.kind() == FactKind.NEAR_MISS_CRITERIA)
                .map(it -> (FactValue.Checklist) ((DerivedValue) it).value())
                .reduce((earlier, later) -> later)
                .map(it -> it.items().stream()
                        .filter(FactValue.Item::done)
                        .map(item -> item.code().code())
                        .toList())
                .orElse(List.of());
    }

    @Test
    void aPressureThatCannotBeHeardIsALowOne() {
        CaseFile file = file(
                event("f", 0, given(Substance.CRYSTALLOID, 2500, "mL")),
                event("v1", 1, vitals(122, 89, 50)),
                event("v2", 61, pressureUnrecordable(122)));

        assertThat(met(file)).containsExactly("shock");
    }

    // A pressure of 90 in between ends the run.
    @Test
    void aNormalPressureBreaksTheRun() {
        CaseFile file = file(
                event("f", 0, given(Substance.CRYSTALLOID, 2500, "mL")),
                event("v1", 1, vitals(122, 89, 50)),
                event("v2", 31, vitals(122, 90, 50)),
                event("v3", 71, vitals(122, 89, 50)));

        assertThat(met(file)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"89,60,hypoxaemia", "89,59,", "90,60,"})
    void saturationMustBeLowForAnHour(int percent, int lasting, @Nullable String criterion) {
        VitalSigns signs = new VitalSigns(null, null, null, null, null, new BigDecimal(percent), null, null);

        assertThat(met(file(event("a", 0, signs), event("b", lasting, signs)))).isEqualTo(list(criterion));
    }

    @ParameterizedTest
    @CsvSource({"U,720,unconsciousness", "U,719,", "P,720,"})
    void unconsciousnessLastsTwelveHours(Consciousness level, int lasting, @Nullable String criterion) {
        VitalSigns signs = new VitalSigns(null, null, null, null, null, null, null, level);

        assertThat(met(file(event("a", 0, signs), event("b", lasting, signs)))).isEqualTo(list(criterion));
    }

    @ParameterizedTest
    @CsvSource({
        "LACTATE,5,mmol/L,",
        "LACTATE,5.1,mmol/L,lactate",
        "PLATELETS,50,10*9/L,",
        "PLATELETS,49,10*9/L,thrombocytopenia",
        "CLOTTING_TIME,7,min,",
        "CLOTTING_TIME,8,min,failure-to-clot",
        "FIBRINOGEN,1,g/L,"
    })
    void aResultIsComparedWithItsCriterion(Analyte analyte, BigDecimal value, String unit, @Nullable String criterion) {
        assertThat(met(file(event("a", 0, new Laboratory(analyte, value, unit)))))
                .isEqualTo(list(criterion));
    }

    @ParameterizedTest
    @CsvSource({"5,slow-breathing", "6,", "40,", "41,fast-breathing"})
    void breathingIsTooSlowOrTooFast(int perMinute, @Nullable String criterion) {
        VitalSigns signs = new VitalSigns(null, null, null, null, new BigDecimal(perMinute), null, null, null);

        assertThat(met(file(event("a", 0, signs)))).isEqualTo(list(criterion));
    }

    // An hour in which nothing was collected is not an hour of little urine.
    @Test
    void aGapBreaksTheRunOfLittleUrine() {
        assertThat(met(file(event("u1", 120, urine(20, 0, 120)), event("u2", 300, urine(20, 180, 300)))))
                .isEmpty();
        assertThat(met(file(event("u1", 120, urine(20, 0, 120)), event("u2", 245, urine(20, 125, 245)))))
                .containsExactly("oliguria");
        assertThat(met(file(event("u1", 120, urine(60, 0, 120)), event("u2", 245, urine(20, 125, 245)))))
                .isEmpty();
    }

    private static List<String> list(@Nullable String criterion) {
        return criterion == null ? List.of() : List.of(criterion);
    }

    private static CaseFile file(EventEnvelope... events) {
        return CaseFile.of(Bedside.CASE, CareProtocol.standard(), new ArrayList<>(Arrays.asList(events)));
    }
}
