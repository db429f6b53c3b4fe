package example.tamponade.fhir.mapping;

import static example.tamponade.fhir.Checks.assertQuantity;
import static example.tamponade.fhir.Checks.assertTime;
import static example.tamponade.fhir.Checks.codes;
import static example.tamponade.fhir.Checks.component;
import static example.tamponade.fhir.Checks.extension;
import static org.assertj.core.api.Assertions.assertThat;

import example.tamponade.core.event.BleedingAmount;
import example.tamponade.core.event.BleedingChecked;
import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.HaemorrhageRecognised;
import example.tamponade.core.event.HelpCalled;
import example.tamponade.core.event.MotherOutcome;
import example.tamponade.core.event.Outcome;
import example.tamponade.core.event.RecognitionCriterion;
import example.tamponade.core.event.StaffRole;
import example.tamponade.core.protocol.CareProtocol;
import example.tamponade.fhir.InventedCase;
import example.tamponade.fhir.Mapped;
import example.tamponade.fhir.Shared;
import example.tamponade.fhir.terms.Narratives;
import java.util.List;
import org.hl7.fhir.r4.model.Communication;
import org.hl7.fhir.r4.model.Condition;
import org.hl7.fhir.r4.model.Consent;
import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.Enumerations;
import org.hl7.fhir.r4.model.EpisodeOfCare;
import org.hl7.fhir.r4.model.Location;
import org.hl7.fhir.r4.model.MedicationAdministration;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Organization;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Procedure;
import org.hl7.fhir.r4.model.Task;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The important fields of each type of event, against what the FHIR definition of the field says. */
class EventMappersTest {

    private static final Mapped CASE = Mapped.ofInventedCase();

    @Test
    void theMotherIsAPatientWithHerOwnNumbers() {
        Patient mother = CASE.one(Patient.class, "mother");
        assertThat(mother.getIdentifier().stream().map(it -> it.getSystem() + " " + it.getValue()))
                .containsExactly("urn:register:hollowbrook 7/2026");
        assertThat(mother.getNameFirstRep().getText()).isEqualTo("Wren Fallowfield");
        assertThat(mother.getBirthDateElement().getValueAsString()).isEqualTo("1999-04-12");
        assertThat(mother.getGender()).isEqualTo(Enumerations.AdministrativeGender.FEMALE);
        assertThat(mother.hasDeceased()).isFalse();
    }

    @ParameterizedTest
    @CsvSource({
        "GIVEN, ACTIVE, PERMIT, v3-ActCode#OPTIN",
        "REFUSED, ACTIVE, DENY, v3-ActCode#OPTOUT",
        "DEFERRED, PROPOSED,,"
    })
    void whatTheMotherSaidOfSharingIsAConsent(
            example.tamponade.core.event.Consent said,
            Consent.ConsentState state,
            Consent.ConsentProvisionType type,
            String rule) {
        CaseOpened opened = (CaseOpened) InventedCase.events().get(0).data();
        Mapped mapped = Mapped.of(new CaseOpened(opened.mother(), opened.encounterStart(), said));
        Consent consent = mapped.one(Consent.class, "consent-to-share");

        assertThat(consent.getStatus()).isEqualTo(state);
        assertThat(consent.getProvision().getType()).isEqualTo(type);
        assertThat(codes(consent.getPolicyRule())).hasSize(rule == null ? 1 : 2).contains("consent#" + said.code());
        if (rule != null) {
            assertThat(codes(consent.getPolicyRule())).contains(rule);
        }
        assertThat(Shared.CONFORMANCE.check(mapped.all()).problems()).isEmpty();
    }

    @Test
    void theStayEndsWhenSheLeavesAndTheCaseWhenItIsClosed() {
        Encounter stay = CASE.one(Encounter.class, "maternity-encounter");
        assertThat(stay.getStatus()).isEqualTo(Encounter.EncounterStatus.FINISHED);
        assertThat(stay.getClass_().getCode()).isEqualTo("IMP");
        assertTime(stay.getPeriod().getStartElement(), "2026-03-01T21:40:00+05:45");
        Task referral = CASE.one(Task.class, "referral-progress");
        assertThat(stay.getPeriod().getEndElement().getValueAsString())
                .isEqualTo(referral.getExecutionPeriod().getStartElement().getValueAsString());
        assertThat(stay.getHospitalization().getDestination().getDisplay()).isEqualTo("Greatmere District Hospital");
        assertThat(CASE.at(stay.getLocationFirstRep().getLocation())).isInstanceOf(Location.class);
        EpisodeOfCare episode = CASE.one(EpisodeOfCare.class, "case-episode");
        assertThat(episode.getStatus()).isEqualTo(EpisodeOfCare.EpisodeOfCareStatus.FINISHED);
        assertThat(CASE.at(episode.getDiagnosisFirstRep().getCondition())).isInstanceOf(Condition.class);
        assertThat(CASE.at(episode.getManagingOrganization())).isInstanceOf(Organization.class);
    }

    @Test
    void anOpenCaseIsInProgress() {
        Mapped open = Mapped.of(new HelpCalled(List.of(StaffRole.DOCTOR)));
        assertThat(open.one(Encounter.class, "maternity-encounter").getStatus())
                .isEqualTo(Encounter.EncounterStatus.INPROGRESS);
        EpisodeOfCare episode = open.one(EpisodeOfCare.class, "case-episode");
        assertThat(episode.getStatus()).isEqualTo(EpisodeOfCare.EpisodeOfCareStatus.ACTIVE);
        assertThat(episode.getPeriod().hasEnd()).isFalse();
        assertThat(episode.hasDiagnosis()).isFalse();
    }

    @Test
    void weightHeightAndHistoryAreObservations() {
        assertQuantity(CASE.observation("mother-weight").getValue(), "61.5", "kg");
        assertQuantity(CASE.observation("mother-height").getValue(), "158", "cm");
        List<Observation> history = CASE.all(Observation.class, "obstetric-history");
        assertThat(history.stream().map(it -> codes(it.getCode())))
                .containsExactly(
                        List.of("loinc.org#11996-6", "bedside-item#gravida"),
                        List.of("loinc.org#11977-6", "bedside-item#para"),
                        List.of("loinc.org#18185-9", "bedside-item#gestation"));
        assertQuantity(history.get(0).getValue(), "3", "{count}");
        assertQuantity(history.get(2).getValue(), "39", "wk");
    }

    @Test
    void aBirthIsAProcedureWithEachBabyAndThePlacenta() {
        Procedure birth = CASE.one(Procedure.class, "birth");
        assertTime(birth.getPerformedDateTimeType(), "2026-03-01T22:01:00+05:45");
        assertThat(extension(birth, "birth-mode"))
                .singleElement()
                .satisfies(it -> assertThat(codes(it)).containsExactly("birth-mode#vaginal"));
        List<Observation> babies = CASE.all(Observation.class, "baby-outcome");
        assertThat(babies).hasSize(2).allSatisfy(it -> {
            assertThat(codes(it.getValue())).containsExactly("baby-outcome#live-born");
            assertThat(CASE.at(it.getPartOfFirstRep())).isSameAs(birth);
        });
        Observation placenta = CASE.observation("placenta-delivery");
        assertThat(codes(placenta.getValue())).containsExactly("placenta-state#complete");
        assertThat(CASE.at(placenta.getPartOfFirstRep())).isSameAs(birth);
    }

    @Test
    void theHaemorrhageIsOneConditionWhoseCauseIsNoDiagnosis() {
        Condition condition = CASE.one(Condition.class, "postpartum-haemorrhage");
        assertThat(codes(condition.getCode())).containsExactly("sct#47821001");
        assertTime(condition.getOnsetDateTimeType(), "2026-03-01T22:10:00+05:45");
        assertThat(condition.getEvidence().stream().map(it -> codes(it.getCodeFirstRep())))
                .containsExactly(List.of("recognition-criterion#volume"), List.of("recognition-criterion#judgement"));
        Observation volume =
                (Observation) CASE.at(condition.getEvidence().get(0).getDetailFirstRep());
        assertThat(codes(volume.getCode())).containsExactly("derived-fact#cumulative-blood-loss");
        assertTime(volume.getEffectiveDateTimeType(), "2026-03-01T22:09:00+05:45");
        assertThat(condition.getEvidence().get(1).hasDetail()).isFalse();
        assertThat(extension(condition, "suspected-cause").stream().map(it -> codes(it)))
                .containsExactly(List.of("suspected-cause#tone"), List.of("suspected-cause#tissue"));
        assertThat(codes(condition.getClinicalStatus())).containsExactly("condition-clinical#active");
    }

    @Test
    void recoveryResolvesTheHaemorrhageAndDeathIsOfTheMother() {
        HaemorrhageRecognised recognised = new HaemorrhageRecognised(List.of(RecognitionCriterion.SIGNS), List.of());
        Condition resolved = Mapped.of(
                        recognised,
                        new BleedingChecked(BleedingAmount.LIGHT, false),
                        new BleedingChecked(BleedingAmount.HEAVY, false),
                        new BleedingChecked(BleedingAmount.LIGHT, false),
                        new BleedingChecked(BleedingAmount.NONE, false),
                        new Outcome(MotherOutcome.RECOVERED, true))
                .one(Condition.class, "postpartum-haemorrhage");
        assertThat(codes(resolved.getClinicalStatus())).containsExactly("condition-clinical#resolved");
        assertTime(resolved.getAbatementDateTimeType(), "2026-03-01T22:03:00+05:45");
        assertThat(Mapped.of(recognised, new Outcome(MotherOutcome.RECOVERED, true))
                        .one(Condition.class, "postpartum-haemorrhage")
                        .hasAbatement())
                .isFalse();
        Mapped died = Mapped.of(recognised, new Outcome(MotherOutcome.DIED, true));
        assertTime(died.one(Patient.class, "mother").getDeceasedDateTimeType(), "2026-03-01T22:01:00+05:45");
        assertThat(codes(died.one(Condition.class, "postpartum-haemorrhage").getClinicalStatus()))
                .containsExactly("condition-clinical#active");
    }

    @Test
    void aCallForHelpNamesWhoWasCalled() {
        Communication call = CASE.one(Communication.class, "help-call");
        assertTime(call.getSentElement(), "2026-03-01T22:11:00+05:45");
        assertThat(call.getPayloadFirstRep().getContentStringType().getValue()).isEqualTo("Help called: Doctor, Nurse");
        assertThat(extension(call, "called-role")).hasSize(2);
    }

    @Test
    void aManoeuvreHasAPeriodOnlyWhenItsEndIsKnown() {
        List<Procedure> manoeuvres = CASE.all(Procedure.class, "bedside-manoeuvre");
        assertThat(codes(manoeuvres.get(0).getCode())).containsExactly("manoeuvre-kind#uterine-massage");
        assertTime(manoeuvres.get(0).getPerformedPeriod().getEndElement(), "2026-03-01T22:17:00+05:45");
        assertTime(manoeuvres.get(1).getPerformedDateTimeType(), "2026-03-01T22:13:00+05:45");
    }

    @Test
    void aMedicineHasDoseAndRoute() {
        List<MedicationAdministration> given = CASE.all(MedicationAdministration.class, "medicine-given");
        MedicationAdministration oxytocin = given.get(0);
        assertThat(codes(oxytocin.getMedication())).containsExactly("atc#H01BB02", "substance#oxytocin");
        assertQuantity(oxytocin.getDosage().getDose(), "10", "[iU]");
        assertThat(codes(oxytocin.getDosage().getRoute())).containsExactly("route#intramuscular");
        assertThat(given.get(2).getMedicationCodeableConcept().getText()).isEqualTo("Calcium gluconate");
    }

    @Test
    void aBloodProductHasVolumeAndUnits() {
        MedicationAdministration given = CASE.one(MedicationAdministration.class, "blood-product-given");
        assertThat(codes(given.getMedication())).containsExactly("blood-product#red-cells");
        assertQuantity(given.getDosage().getDose(), "560", "mL");
        assertThat(extension(given, "units-given").get(0).primitiveValue()).isEqualTo("2");
    }

    @Test
    void aWeighedLossKeepsTheWeightsBesideTheBloodInIt() {
        Observation weighed = CASE.all(Observation.class, "blood-loss").get(1);
        assertQuantity(weighed.getValue(), "180", "mL");
        assertThat(codes(weighed.getMethod())).containsExactly("loss-method#weighed");
        assertQuantity(component(weighed, "blood-loss-wet-weight").getValue(), "240", "g");
        assertQuantity(component(weighed, "blood-loss-dry-weight").getValue(), "60", "g");
        assertThat(codes(component(weighed, "loss-reading").getValue())).containsExactly("loss-reading#increment");
        assertThat(component(weighed, "collector").getValue().primitiveValue()).isEqualTo("pads 1");
    }

    @Test
    void aDrapeReadingIsLessTheOtherFluidInIt() {
        Observation drape = CASE.all(Observation.class, "blood-loss").get(0);
        assertQuantity(drape.getValue(), "300", "mL");
        assertQuantity(component(drape, "blood-loss-volume-read").getValue(), "350", "mL");
        assertQuantity(component(drape, "blood-loss-other-fluid").getValue(), "50", "mL");
    }

    @Test
    void anEstimateByEyeIsMarkedAsSuchAndSoIsWhatFollowsFromIt() {
        Observation visual = CASE.all(Observation.class, "blood-loss").get(2);
        assertThat(Mapped.tags(visual)).containsExactly("visual-estimate");
        Observation derived =
                CASE.all(Observation.class, "blood-loss-of-reading").get(2);
        assertThat(CASE.at(derived.getDerivedFromFirstRep())).isSameAs(visual);
        assertThat(Mapped.tags(derived)).containsExactly("visual-estimate");
    }

    @Test
    void uterusAndBleedingAreExaminations() {
        assertThat(codes(CASE.observation("uterine-tone").getValue())).containsExactly("uterine-tone#soft");
        assertQuantity(CASE.observation("fundal-height").getValue(), "2", "cm");
        Observation bleeding = CASE.all(Observation.class, "bleeding-amount").get(0);
        assertThat(codes(bleeding.getValue())).containsExactly("bleeding-amount#heavy");
        assertThat(component(bleeding, "other-bleeding-source")
                        .getValueBooleanType()
                        .booleanValue())
                .isFalse();
    }

    @Test
    void urineHasThePeriodOfItsCollection() {
        Observation urine = CASE.observation("urine-output");
        assertThat(codes(urine.getCode())).containsExactly("loinc.org#9187-6", "bedside-item#urine-output");
        assertQuantity(urine.getValue(), "60", "mL");
        assertTime(urine.getEffectivePeriod().getStartElement(), "2026-03-01T21:50:00+05:45");
        assertTime(urine.getEffectivePeriod().getEndElement(), "2026-03-01T22:40:00+05:45");
    }

    // HL7 v3 ObservationInterpretation: LL critical low, L low, H high. RCOG 47 (haemoglobin below 100 g/L), Oladapo
    // 2009 (platelets below 50), lactate above 2 mmol/L.
    @Test
    void aResultBeyondALimitOfTheProtocolIsInterpreted() {
        List<Observation> results = Mapped.of(InventedCase.calmNight()).all(Observation.class, "bedside-laboratory");

        assertThat(results.stream()
                        .map(it -> it.hasInterpretation()
                                ? it.getInterpretationFirstRep()
                                        .getCodingFirstRep()
                                        .getCode()
                                : ""))
                .containsExactly("", "L", "H", "LL");
        assertThat(results.get(0).getReferenceRange())
                .singleElement()
                .satisfies(it -> assertThat(
                                it.getLow().getValue() + " " + it.getLow().getCode() + ", " + it.getText())
                        .isEqualTo("100 g/L, anaemia-below of care protocol "
                                + CareProtocol.standard().reference()));
    }

    @Test
    void theStandardCodeOfHaemoglobinIsOfMassInAVolumeOnly() {
        List<Observation> results = CASE.all(Observation.class, "bedside-laboratory");
        assertThat(codes(results.get(0).getCode())).containsExactly("loinc.org#718-7", "analyte#haemoglobin");
        assertQuantity(results.get(0).getValue(), "8.9", "g/dL");
        assertThat(codes(results.get(1).getCode())).containsExactly("analyte#haemoglobin");
        assertQuantity(results.get(1).getValue(), "5.5", "mmol/L");
    }

    @Test
    void aNoteKeepsItsWords() {
        Observation note = CASE.all(Observation.class, "bedside-note").get(0);
        assertThat(note.getValueStringType().getValue())
                .isEqualTo("Second cannula placed; \"<warm>\" fluids & blankets.");
        assertThat(Narratives.text(note.getText())).contains("\"<warm>\" fluids & blankets");
    }

    @Test
    void aLateEntryIsMarked() {
        Observation late = CASE.all(Observation.class, "bedside-note").get(1);
        assertThat(Mapped.tags(late)).containsExactly("late-entry");
        assertThat(Narratives.text(late.getText())).contains("Marked: Late entry.");
    }

    @Test
    void theOutcomeIsAnAnswer() {
        assertThat(codes(CASE.observation("case-outcome").getValue())).containsExactly("mother-outcome#referred");
    }
}
