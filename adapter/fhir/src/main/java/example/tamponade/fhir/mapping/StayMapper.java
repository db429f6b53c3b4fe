package example.tamponade.fhir.mapping;

import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.EventEnvelope;
import example.tamponade.core.event.Referral;
import example.tamponade.core.event.ReferralStep;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.Reference;
import org.jspecify.annotations.Nullable;

/** The mother's stay at each facility that records for the case. */
final class StayMapper {

    private static final String ACT_CODE = "http://terminology.hl7.org/CodeSystem/v3-ActCode";

    private StayMapper() {}

    /** The stay at the facility of the case. */
    static Encounter own(@Nullable CaseOpened opened, Recorded from) {
        String facility = from.scope.file.caseId().facilityId();
        return stay(facility, opened == null ? from.at() : opened.encounterStart(), from);
    }

    /** The stay during which the event was recorded. */
    static Encounter during(Recorded event) {
        CaseScope scope = event.scope;
        return event.event.facilityId().equals(scope.file.caseId().facilityId())
                ? CaseMappers.ownStay(scope)
                : elsewhere(List.of(event.event), scope).get(0);
    }

    /** The stays at the other facilities at which these events were recorded, each from its first event on. */
    static List<Encounter> elsewhere(List<EventEnvelope> events, CaseScope scope) {
        Map<String, Recorded> first = new LinkedHashMap<>();
        scope.standing().forEach(it -> first.putIfAbsent(it.event.facilityId(), it));
        List<Encounter> stays = new ArrayList<>();
        events.stream().map(EventEnvelope::facilityId).distinct().forEach(facility -> {
            if (!facility.equals(scope.file.caseId().facilityId())) {
                Recorded from = first.computeIfAbsent(facility, it -> withdrawn(events, it, scope));
                stays.add(stay(facility, from.at(), from));
            }
        });
        return stays;
    }

    private static Recorded withdrawn(List<EventEnvelope> events, String facility, CaseScope scope) {
        EventEnvelope event = events.stream()
                .filter(it -> it.facilityId().equals(facility))
                .findFirst()
                .orElseThrow();
        return scope.replaced(event.eventId(), event);
    }

    private static Encounter stay(String facility, OffsetDateTime start, Recorded from) {
        CaseScope scope = from.scope;
        OffsetDateTime end = end(facility, scope);
        Encounter encounter = new Encounter();
        encounter.addIdentifier(EpisodeMapper.caseIdentifier(scope));
        encounter.setStatus(end == null ? Encounter.EncounterStatus.INPROGRESS : Encounter.EncounterStatus.FINISHED);
        encounter.setClass_(new Coding(ACT_CODE, "IMP", "inpatient encounter"));
        encounter.addType(scope.item("encounter-maternity"));
        encounter.setSubject(scope.mother());
        encounter.addEpisodeOfCare(scope.episode());
        encounter.setPeriod(Times.period(start, end));
        encounter.addLocation().setLocation(scope.facility(facility));
        encounter.setServiceProvider(scope.organization(facility));
        String line = encounter.getTypeFirstRep().getText() + " at " + facility + from(facility, encounter, scope)
                + to(facility, encounter, scope) + " from " + Times.words(start)
                + (end == null ? "" : " to " + Times.words(end));
        Encounter described =
                from.describe(encounter, scope.stayId(facility), CaseScope.STAY, "maternity-encounter", line);
        if (from.standing == Standing.WITHDRAWN) {
            EnteredInError.mark(described);
        }
        return SecurityLabel.put(described, scope.file);
    }

    // She has left a facility when it recorded her departure; otherwise her stay ends with the case.
    private static @Nullable OffsetDateTime end(String facility, CaseScope scope) {
        Recorded departure = departure(facility, scope);
        return departure == null ? scope.file.closedAt() : departure.at();
    }

    private static @Nullable Recorded departure(String facility, CaseScope scope) {
        return scope.referrals().stream()
                .map(it -> it.first(ReferralStep.DEPARTED))
                .filter(it -> it != null && it.event.facilityId().equals(facility))
                .reduce((one, later) -> later)
                .orElse(null);
    }

    private static String from(String facility, Encounter encounter, CaseScope scope) {
        String sender = scope.referrals().stream()
                .filter(it -> facility.equals(it.receivingFacility()))
                .map(it -> it.steps().get(0).event.facilityId())
                .filter(it -> !it.equals(facility))
                .findFirst()
                .orElse(null);
        if (sender == null) {
            return "";
        }
        encounter.getHospitalization().setOrigin(scope.facility(sender));
        return ", referred from " + sender;
    }

    private static String to(String facility, Encounter encounter, CaseScope scope) {
        Recorded departure = departure(facility, scope);
        if (departure == null) {
            return "";
        }
        String to = ((Referral) departure.data()).to();
        String receiver = scope.referral(departure).receivingFacility();
        encounter
                .getHospitalization()
                .setDestination((receiver == null ? new Reference() : scope.facility(receiver)).setDisplay(to));
        return ", referred to " + to;
    }
}
