package example.tamponade.fhir.mapping;

import example.tamponade.core.event.CaseOpened;
import java.util.Optional;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Consent;

/** What the mother said about sharing her record, as a consent; none when nobody has written it down. */
final class ConsentMapper {

    private static final String CONSENT = "consent";
    private static final String ACT_CODE = "http://terminology.hl7.org/CodeSystem/v3-ActCode";
    private static final String SCOPE = "http://terminology.hl7.org/CodeSystem/consentscope";

    private ConsentMapper() {}

    static Optional<Consent> map(CaseOpened opened, Recorded from) {
        example.tamponade.core.event.Consent said = opened.consent();
        return said == null ? Optional.empty() : Optional.of(consent(said, from));
    }

    private static Consent consent(example.tamponade.core.event.Consent said, Recorded from) {
        CaseScope scope = from.scope;
        Consent consent = new Consent();
        consent.setScope(new CodeableConcept(new Coding(SCOPE, "patient-privacy", "Privacy Consent")));
        consent.addCategory(new CodeableConcept(new Coding(ACT_CODE, "IDSCL", "information disclosure")));
        consent.setPatient(scope.mother());
        consent.setDateTimeElement(Times.dateTime(from.at()));
        consent.addOrganization(scope.organization(scope.file.caseId().facilityId()));
        CodeableConcept answer = from.answer("consent", said);
        consent.setPolicyRule(answer);
        decide(consent, said);
        String line = "Sharing her record: " + answer.getText();
        Consent described = from.describe(consent, scope.caseId(CONSENT), CONSENT, "consent-to-share", line);
        if (from.standing == Standing.WITHDRAWN) {
            EnteredInError.mark(described);
        }
        return SecurityLabel.put(described, scope.file);
    }

    // She could not be asked yet: the consent is proposed, and neither permits nor denies.
    private static void decide(Consent consent, example.tamponade.core.event.Consent said) {
        switch (said) {
            case GIVEN -> {
                consent.setStatus(Consent.ConsentState.ACTIVE);
                consent.getPolicyRule().getCoding().add(0, new Coding(ACT_CODE, "OPTIN", "opt-in"));
                consent.getProvision().setType(Consent.ConsentProvisionType.PERMIT);
            }
            case REFUSED -> {
                consent.setStatus(Consent.ConsentState.ACTIVE);
                consent.getPolicyRule().getCoding().add(0, new Coding(ACT_CODE, "OPTOUT", "opt-out"));
                consent.getProvision().setType(Consent.ConsentProvisionType.DENY);
            }
            case DEFERRED -> consent.setStatus(Consent.ConsentState.PROPOSED);
        }
    }
}
