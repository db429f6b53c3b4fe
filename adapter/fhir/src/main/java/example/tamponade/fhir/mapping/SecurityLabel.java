package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.CaseEntry;
import example.tamponade.core.casefile.CaseFile;
import example.tamponade.core.event.CaseOpened;
import example.tamponade.core.event.Consent;
import java.util.UUID;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Resource;

/** Marks what names a mother who refused that her record is shared. */
final class SecurityLabel {

    private static final String CONFIDENTIALITY = "http://terminology.hl7.org/CodeSystem/v3-Confidentiality";

    private SecurityLabel() {}

    /** Whether the mother refused; false as long as nothing says so. */
    static boolean isRestricted(CaseFile file) {
        UUID opening = file.opening();
        CaseEntry entry = opening == null ? null : file.entry(opening);
        return entry != null && entry.data() instanceof CaseOpened opened && opened.consent() == Consent.REFUSED;
    }

    /** Labels the resource as restricted when the mother of the case refused. */
    static <T extends Resource> T put(T resource, CaseFile file) {
        if (isRestricted(file)) {
            resource.getMeta().addSecurity(new Coding(CONFIDENTIALITY, "R", "restricted"));
        }
        return resource;
    }
}
