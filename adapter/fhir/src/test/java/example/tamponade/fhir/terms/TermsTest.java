package example.tamponade.fhir.terms;

import static example.tamponade.fhir.Checks.codes;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import example.tamponade.core.casefile.FactKind;
import example.tamponade.core.casefile.FlagKind;
import example.tamponade.core.casefile.IssueKind;
import example.tamponade.core.event.Analyte;
import example.tamponade.core.event.BabyOutcome;
import example.tamponade.core.event.BalloonPosition;
import example.tamponade.core.event.BirthMode;
import example.tamponade.core.event.BleedingAmount;
import example.tamponade.core.event.BloodProduct;
import example.tamponade.core.event.Chamber;
import example.tamponade.core.event.Coded;
import example.tamponade.core.event.Consciousness;
import example.tamponade.core.event.Consent;
import example.tamponade.core.event.DeviceKind;
import example.tamponade.core.event.EventSource;
import example.tamponade.core.event.EventType;
import example.tamponade.core.event.FillFluid;
import example.tamponade.core.event.Guidance;
import example.tamponade.core.event.LossMethod;
import example.tamponade.core.event.LossReading;
import example.tamponade.core.event.ManoeuvreKind;
import example.tamponade.core.event.MotherOutcome;
import example.tamponade.core.event.PlacentaState;
import example.tamponade.core.event.RecognitionCriterion;
import example.tamponade.core.event.ReferralReason;
import example.tamponade.core.event.ReferralStep;
import example.tamponade.core.event.RemovalReason;
import example.tamponade.core.event.Route;
import example.tamponade.core.event.StaffRole;
import example.tamponade.core.event.Substance;
import example.tamponade.core.event.SuspectedCause;
import example.tamponade.core.event.UterineTone;
import example.tamponade.fhir.Shared;
import java.util.Locale;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

class TermsTest {

    private final Terms terms = Shared.TERMS;

    @Test
    void theStandardCodeComesFirstWhereTheMapSaysItIsTheSame() {
        CodeableConcept urine = terms.local("bedside-item", "urine-output");
        assertThat(codes(urine)).containsExactly("loinc.org#9187-6", "bedside-item#urine-output");
        assertThat(urine.getText()).isEqualTo("Urine output");
    }

    @Test
    void noStandardCodeWhereTheMapSaysItIsWider() {
        assertThat(codes(terms.local("suspected-cause", "tone"))).containsExactly("suspected-cause#tone");
    }

    @Test
    void theAddressesBeginWithTheBaseOfThePackage() {
        assertThat(terms.base()).isEqualTo("https://tamponade-adapter.example/fhir");
        assertThat(terms.system("route")).isEqualTo("https://tamponade-adapter.example/fhir/CodeSystem/route");
        assertThat(terms.profile("birth"))
                .isEqualTo("https://tamponade-adapter.example/fhir/StructureDefinition/birth");
        assertThat(terms.version()).isNotBlank();
    }

    @Test
    void whatACallerChangesStaysWithTheCaller() {
        terms.local("bedside-item", "urine-output").getCodingFirstRep().setCode("changed");
        assertThat(codes(terms.local("bedside-item", "urine-output"))).contains("loinc.org#9187-6");
    }

    @Test
    void anUnknownCodeOrSystemIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> terms.local("route", "by-ear"));
        assertThrows(IllegalArgumentException.class, () -> terms.coding("http://example.com/none", "x"));
    }

    static Stream<Coded> answers() {
        return Stream.<Coded[]>of(
                        Analyte.values(),
                        BabyOutcome.values(),
                        BalloonPosition.values(),
                        BirthMode.values(),
                        BleedingAmount.values(),
                        BloodProduct.values(),
                        Chamber.values(),
                        Consciousness.values(),
                        Consent.values(),
                        DeviceKind.values(),
                        EventSource.values(),
                        EventType.values(),
                        FillFluid.values(),
                        Guidance.values(),
                        LossMethod.values(),
                        LossReading.values(),
                        ManoeuvreKind.values(),
                        MotherOutcome.values(),
                        RecognitionCriterion.values(),
                        ReferralReason.values(),
                        ReferralStep.values(),
                        RemovalReason.values(),
                        Route.values(),
                        StaffRole.values(),
                        Substance.values(),
                        SuspectedCause.values(),
                        UterineTone.values())
                .flatMap(Stream::of);
    }

    @ParameterizedTest
    @MethodSource("answers")
    void everyAnswerOfTheVocabularyHasAWord(Coded answer) {
        String list = answer.getClass()
                .getSimpleName()
                .replaceAll("(?<=[a-z])(?=[A-Z])", "-")
                .toLowerCase(Locale.ROOT);
        assertThat(terms.local(list, answer.code()).getText()).isNotBlank();
    }

    @ParameterizedTest
    @EnumSource(PlacentaState.class)
    void everyStateOfThePlacentaHasAWord(PlacentaState state) {
        assertThat(terms.local("placenta-state", state.code()).getText()).isNotBlank();
    }

    @ParameterizedTest
    @EnumSource(FactKind.class)
    void everyFactHasAWordAndAMethod(FactKind kind) {
        assertThat(terms.local("derived-fact", kind.code()).getText()).isNotBlank();
        assertThat(terms.local("derivation-method", kind.code()).getText()).isNotBlank();
    }

    @ParameterizedTest
    @EnumSource(FlagKind.class)
    void everyFlagHasAWord(FlagKind kind) {
        assertThat(terms.local("case-flag", kind.code()).getText()).isNotBlank();
    }

    @ParameterizedTest
    @EnumSource(IssueKind.class)
    void everyIssueHasAWord(IssueKind kind) {
        assertThat(terms.local("record-issue", kind.code()).getText()).isNotBlank();
    }
}
