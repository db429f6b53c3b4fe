package example.tamponade.fhir.mapping;

import example.tamponade.core.event.CaseOpened;
import java.time.OffsetDateTime;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.DomainResource;
import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.EpisodeOfCare;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Period;
import org.jspecify.annotations.Nullable;

/** The mother's stay at the facility, and the case as an episode of care. */
final class StayMapper {

    private static final String ACT_CODE = "http://terminology.hl7.org/CodeSystem/v3-ActCode";
    private static final String ENCOUNTER = "encounter";
    private static final String EPISODE = "episode";

    private StayMapper() {}

    static Encounter encounter(@Nullable CaseOpened opened, Recorded from) {
        CaseScope scope = from.scope;
        Period period = period(opened, from);
        Encounter encounter = new Encounter();
        encounter.addIdentifier(caseIdentifier(scope));
        encounter.setStatus(
                scope.file.closedAt() == null
                        ? Encounter.EncounterStatus.INPROGRESS
                        : Encounter.EncounterStatus.FINISHED);
        encounter.setClass_(new Coding(ACT_CODE, "IMP", "inpatient encounter"));
        encounter.addType(scope.item("encounter-maternity"));
        encounter.setSubject(scope.mother());
        encounter.addEpisodeOfCare(scope.episode());
        encounter.setPeriod(period);
        encounter.addLocation().setLocation(scope.facility(from.event.facilityId()));
        String line = encounter.getTypeFirstRep().getText() + " at " + from.event.facilityId() + words(opened, from);
        return finish(encounter, ENCOUNTER, "maternity-encounter", line, from);
    }

    static EpisodeOfCare episode(@Nullable CaseOpened opened, Recorded from) {
        CaseScope scope = from.scope;
        EpisodeOfCare episode = new EpisodeOfCare();
        episode.addIdentifier(caseIdentifier(scope));
        episode.setStatus(
                scope.file.closedAt() == null
                        ? EpisodeOfCare.EpisodeOfCareStatus.ACTIVE
                        : EpisodeOfCare.EpisodeOfCareStatus.FINISHED);
        episode.addType(scope.item("case-episode"));
        episode.setPatient(scope.mother());
        episode.setPeriod(period(opened, from));
        if (HaemorrhageMapper.isIn(scope)) {
            episode.addDiagnosis().setCondition(scope.condition());
        }
        String line = "Case " + scope.file.caseId().number() + words(opened, from);
        if (opened != null && opened.consent() != null) {
            CodeableConcept consent = from.answer("consent", opened.consent());
            episode.addExtension(scope.frame.extension("consent-to-share", consent));
            line += "; sharing her record: " + consent.getText();
        }
        return finish(episode, EPISODE, "case-episode", line, from);
    }

    /** Facility and number in one value, as a number alone names two cases where two facilities number alike. */
    static Identifier caseIdentifier(CaseScope scope) {
        return new Identifier()
                .setSystem(scope.terms.base() + "/identifier/case")
                .setValue(scope.file.caseId().toString());
    }

    private static <T extends DomainResource> T finish(
            T resource, String role, String profile, String line, Recorded from) {
        T described = from.describe(resource, from.scope.caseId(role), role, profile, line);
        if (from.standing == Standing.WITHDRAWN) {
            EnteredInError.mark(described);
        }
        return described;
    }

    private static Period period(@Nullable CaseOpened opened, Recorded from) {
        return Times.period(start(opened, from), from.scope.file.closedAt());
    }

    private static OffsetDateTime start(@Nullable CaseOpened opened, Recorded from) {
        return opened == null ? from.at() : opened.encounterStart();
    }

    private static String words(@Nullable CaseOpened opened, Recorded from) {
        OffsetDateTime closed = from.scope.file.closedAt();
        return " from " + Times.words(start(opened, from)) + (closed == null ? "" : " to " + Times.words(closed));
    }
}
