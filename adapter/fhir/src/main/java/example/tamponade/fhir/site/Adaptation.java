package example.tamponade.fhir.site;

import java.util.List;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Identifier;

/**
 * What a site adds to the resources; each rule with its line in the file.
 *
 * @param file the file, for people
 * @param claims further profiles
 * @param systems what senders' identifier systems are called at the site
 * @param facilities the site's identifiers of facilities
 * @param maps concept maps whose targets stand beside the adapter's codings
 * @param extensions extensions with fixed values
 */
record Adaptation(
        String file,
        List<Claim> claims,
        List<SystemName> systems,
        List<FacilityId> facilities,
        List<MapUse> maps,
        List<FixedExtension> extensions) {

    static final Adaptation NONE = new Adaptation("", List.of(), List.of(), List.of(), List.of(), List.of());

    /** A profile that resources claim; they are named by their type or by the adapter's profile. */
    record Claim(String resource, String profile, int line) {}

    /** An identifier system by its name at the senders and at the site. */
    record SystemName(String sent, String site, int line) {}

    /** What identifies a facility at the site, as an Organization or as a Location. */
    record FacilityId(String facility, String type, Identifier identifier, int line) {}

    /** A concept map of the site's packages. */
    record MapUse(String url, int line) {}

    /** An extension that resources carry; they are named by their type or by the adapter's profile. */
    record FixedExtension(String resource, Extension extension, int line) {}
}
