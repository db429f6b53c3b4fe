package example.tamponade.fhir.mapping;

import static example.tamponade.fhir.Checks.assertQuantity;
import static example.tamponade.fhir.Checks.assertTime;
import static example.tamponade.fhir.Checks.codes;
import static example.tamponade.fhir.Checks.extension;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.casefile.DerivedValue;
import example.tamponade.core.event.BloodLoss;
import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.Consent;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.LossMethod;
import example.tamponade.core.event.LossReading;
import example.tamponade.core.event.Mother;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.Shared;
import example.tamponade.fhir.terms.Narratives;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import org.hl7.fhir.r4.model.DetectedIssue;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.Flag;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Procedure;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FactMappersTest {

    private static final Mapped CASE = Mapped.ofInventedCase();

    @Test
    void aDerivedValueNamesMethodSoftwareAndProtocol() {
        Observation index = CASE.all(Observation.class, "shock-index").get(1);
        assertQuantity(index.getValue(), "1.45", "{ratio}");
        assertThat(codes(index.getCode())).containsExactly("derived-fact#shock-index");
        assertThat(codes(index.getMethod())).containsExactly("derivation-method#shock-index");
        assertThat(codes(index.getCategory().get(1))).containsExactly("observation-group#derived");
        Device software = (Device) CASE.at(index.getDevice());
        assertThat(software.getVersionFirstRep().getValue()).isEqualTo("0.1.0");
        assertThat(extension(index, "care-protocol").get(0).primitiveValue())
                .isEqualTo(InventedCase.PROTOCOL.reference());
        assertThat(index.hasPerformer()).isFalse();
    }

    @Test
    void theBandIsAnInterpretationAgainstTheRangeOfTheProtocol() {
        Observation index = CASE.all(Observation.class, "shock-index").get(1);
        assertThat(codes(index.getInterpretationFirstRep())).containsExactly("v3-ObservationInterpretation#HU");
        assertQuantity(index.getReferenceRangeFirstRep().getHigh(), "0.9", "{ratio}");
        assertThat(index.getReferenceRangeFirstRep().getText())
                .contains("top band from 1.7")
                .contains("El Ayadi");
    }

    @Test
    void anUnheardPressureGivesNoNumberAndTheTopBand() {
        Observation index = CASE.all(Observation.class, "shock-index").stream()
                .filter(Observation::hasDataAbsentReason)
                .findFirst()
                .orElseThrow();
        assertThat(index.hasValue()).isFalse();
        assertThat(codes(index.getDataAbsentReason()))
                .containsExactly("data-absent-reason#unknown", "bedside-item#pressure-unrecordable");
        assertThat(codes(index.getInterpretationFirstRep())).containsExactly("v3-ObservationInterpretation#HH");
    }

    @Test
    void theStandardCodeOfMeanPressureComesFirst() {
        Observation mean = CASE.all(Observation.class, "mean-arterial-pressure").get(0);
        assertThat(codes(mean.getCode())).containsExactly("loinc.org#8478-0", "derived-fact#mean-arterial-pressure");
    }

    @Test
    void aVolumeInTheBalloonIsOfItsTamponadeAndDevice() {
        Observation volume =
                CASE.all(Observation.class, "retention-chamber-volume").get(0);
        assertQuantity(volume.getValue(), "80", "mL");
        assertThat(CASE.at(volume.getPartOfFirstRep())).isInstanceOf(Procedure.class);
        assertThat(Mapped.profileOf(CASE.at(volume.getFocusFirstRep()))).isEqualTo("tamponade-device");
        assertThat(Mapped.profileOf(CASE.at(volume.getDevice()))).isEqualTo("adapter-software");
    }

    @Test
    void whatWasSentBeforeIsAmended() {
        CaseFile file = InventedCase.file();
        Resource amended = Shared.MAPPER.ofFact(
                file,
                file.facts().stream()
                        .filter(DerivedValue.class::isInstance)
                        .findFirst()
                        .orElseThrow(),
                true);
        assertThat(((Observation) amended).getStatus()).isEqualTo(Observation.ObservationStatus.AMENDED);
        assertThat(Shared.CONFORMANCE.check(amended).problems()).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "weight,165,estimated-blood-volume",
        "weight,150,estimated-blood-volume-obesity",
        "height-weight,150,estimated-blood-volume-height-weight"
    })
    void theBloodVolumeSaysByWhichFormula(String method, BigDecimal heightCm, String code) throws IOException {
        String standard = new String(
                Objects.requireNonNull(CareProtocol.class.getResourceAsStream("standard-protocol.yaml"))
                        .readAllBytes(),
                StandardCharsets.UTF_8);
        CareProtocol protocol = CareProtocol.read(
                "local",
                standard.replace(
                        "blood-volume-method:\n    value: weight", "blood-volume-method:\n    value: " + method));
        Mother mother = new Mother(List.of(), null, null, 30, new BigDecimal(90), heightCm, null, null, null);
        List<EventEnvelope> events = InventedCase.eventsOf(new CaseOpened(mother, InventedCase.BEGIN, Consent.GIVEN));
        Resource volume = Shared.MAPPER
                .resources(CaseFile.of(InventedCase.CASE_ID, protocol, events), events, InventedCase::digest)
                .stream()
                .filter(it -> Mapped.profileOf(it).equals("estimated-blood-volume"))
                .findFirst()
                .orElseThrow();

        assertThat(codes(((Observation) volume).getMethod())).contains("derivation-method#" + code);
        assertThat(Shared.CONFORMANCE.check(volume).problems()).isEmpty();
    }

    @Test
    void aFlagHasARuleEvidenceAndAnEnd() {
        List<Flag> flags = CASE.all(Flag.class, "case-flag");
        Flag raised = flags.stream()
                .filter(it -> codes(it.getCode()).contains("case-flag#shock-index-raised"))
                .findFirst()
                .orElseThrow();
        // No reading ended it, and closing the case did not either.
        assertThat(raised.getStatus()).isEqualTo(Flag.FlagStatus.ACTIVE);
        assertThat(flags).anySatisfy(it -> {
            assertThat(it.getStatus()).isEqualTo(Flag.FlagStatus.INACTIVE);
            assertThat(it.getPeriod().hasEnd()).isTrue();
            assertThat(extension(it, "flag-end-reason").get(0).primitiveValue()).isEqualTo("no-longer-observed");
            assertThat(CASE.at((Reference) extension(it, "flag-ended-by").get(0)))
                    .isInstanceOf(Resource.class);
            assertThat(Narratives.text(it.getText())).contains("no longer observed; nothing shows that it is over");
        });
        assertTime(raised.getPeriod().getStartElement(), "2026-03-01T22:18:00+05:45");
        assertThat(raised.getCode().getText()).isEqualTo("Shock index is raised.");
        assertThat(extension(raised, "flag-severity").get(0).primitiveValue()).isEqualTo("moderate");
        assertThat(extension(raised, "flag-rule").get(0).primitiveValue())
                .isEqualTo("shock-index: raised from 0.9, ends below 0.85");
        assertThat(CASE.at((Reference) extension(raised, "flag-evidence").get(0)))
                .isSameAs(CASE.all(Observation.class, "shock-index").get(1));
        assertThat(extension(raised, "caution").get(0).primitiveValue()).isEqualTo(CaseMapper.CAUTION);
        assertThat(Narratives.text(raised.getText()))
                .contains("Shock index is raised.")
                .contains(CaseMapper.CAUTION);
    }

    @Test
    void aFlagThatStandsIsActive() {
        Mapped open = Mapped.of(new BloodLoss(
                LossMethod.SUCTION, LossReading.INCREMENT, null, new BigDecimal("600"), null, null, null, null));
        Flag flag = open.all(Flag.class, "case-flag").get(0);
        assertThat(flag.getStatus()).isEqualTo(Flag.FlagStatus.ACTIVE);
        assertThat(flag.getPeriod().hasEnd()).isFalse();
    }

    @Test
    void everyKindOfIssueNamesWhatIsDoubtful() {
        assertThat(CASE.all(DetectedIssue.class, "record-issue")).isNotEmpty().allSatisfy(it -> {
            assertThat(it.getImplicated()).isNotEmpty();
            assertThat(it.getDetail()).isNotBlank();
            assertThat(CASE.at(it.getAuthor())).isInstanceOf(Device.class);
        });
        assertThat(CASE.all(DetectedIssue.class, "record-issue").stream()
                        .map(it -> it.getCode().getCodingFirstRep().getCode())
                        .distinct())
                .contains(
                        "implausible-value",
                        "drained-more-than-held",
                        "no-device-in-place",
                        "over-capacity",
                        "running-total-fell");
    }
}
