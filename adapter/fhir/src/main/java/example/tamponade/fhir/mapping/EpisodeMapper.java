package example.tamponade.fhir.mapping;

import example.tamponade.core.event.CaseOpened;
import java.time.OffsetDateTime;
import org.hl7.fhir.r4.model.EpisodeOfCare;
import org.hl7.fhir.r4.model.Identifier;
import org.jspecify.annotations.Nullable;

/** The case as an episode of care, whatever facilities the mother is at meanwhile. */
final class EpisodeMapper {

    private static final String EPISODE = "episode";

    private EpisodeMapper() {}

    static EpisodeOfCare map(@Nullable CaseOpened opened, Recorded from) {
        CaseScope scope = from.scope;
        OffsetDateTime start = opened == null ? from.at() : opened.encounterStart();
        OffsetDateTime closed = scope.file.closedAt();
        EpisodeOfCare episode = new EpisodeOfCare();
        episode.addIdentifier(caseIdentifier(scope));
        episode.setStatus(
                closed == null ? EpisodeOfCare.EpisodeOfCareStatus.ACTIVE : EpisodeOfCare.EpisodeOfCareStatus.FINISHED);
        episode.addType(scope.item("case-episode"));
        episode.setPatient(scope.mother());
        episode.setPeriod(Times.period(start, closed));
        episode.setManagingOrganization(scope.organization(scope.file.caseId().facilityId()));
        if (HaemorrhageMapper.isIn(scope)) {
            episode.addDiagnosis().setCondition(scope.condition());
        }
        String line = "Case " + scope.file.caseId().number() + " from " + Times.words(start)
                + (closed == null ? "" : " to " + Times.words(closed));
        EpisodeOfCare described = from.describe(episode, scope.caseId(EPISODE), EPISODE, "case-episode", line);
        if (from.standing == Standing.WITHDRAWN) {
            EnteredInError.mark(described);
        }
        return SecurityLabel.put(described, scope.file);
    }

    /** Facility and number in one value, as a number alone names two cases where two facilities number alike. */
    static Identifier caseIdentifier(CaseScope scope) {
        return new Identifier()
                .setSystem(scope.terms.base() + "/identifier/case")
                .setValue(scope.file.caseId().toString());
    }
}
