package example.tamponade.app.delivery;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.RuntimeResourceDefinition;
import ca.uhn.fhir.util.ResourceReferenceInfo;
import example.tamponade.app.outbox.Held;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.instance.model.api.IBase;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;
import org.springframework.web.util.UriUtils;

/**
 * Writes resources for a receiver that gives its own ids: by conditional updates on an identifier of ours, and at the
 * receiver's own address once that is known (HL7 FHIR R4, RESTful API, 3.1.0.4.3 and 3.1.0.11.2).
 *
 * <p>A mother is found by the first of her own identifiers, and never changed where the receiver has her already: one mother
 * with two cases is one Patient there.
 */
final class ReceiverIds {

    private static final String UUID_SYSTEM = "urn:ietf:rfc:3986";
    private static final String UUID = "urn:uuid:";

    private final FhirContext fhir = FhirContext.forR4Cached();
    private final String tagSystem;

    /**
     * Writes for such receivers.
     *
     * @param tagSystem the system of the tag that resources carry which cannot have an identifier
     */
    ReceiverIds(String tagSystem) {
        this.tagSystem = tagSystem;
    }

    /**
     * The resources as a transaction.
     *
     * @param there what the receiver holds of them and of what they point to
     */
    Bundle puts(List<Resource> resources, Map<String, Held> there) {
        Bundle bundle = new Bundle().setType(Bundle.BundleType.TRANSACTION);
        Map<String, String> references = references(resources, there);
        for (Resource resource : resources) {
            String name = name(resource);
            Held held = there.get(name);
            Resource theirs = resource.copy();
            Bundle.BundleEntryComponent entry = bundle.addEntry().setFullUrl(UUID + resource.getIdPart());
            refer(theirs, references);
            theirs.setId((String) null);
            ask(theirs, resource.getIdPart(), held, entry.getRequest());
            entry.setResource(theirs);
        }
        return bundle;
    }

    private void ask(Resource resource, String id, @Nullable Held held, Bundle.BundleEntryRequestComponent request) {
        String type = resource.fhirType();
        String marked = mark(resource, id);
        if (isKnownByOwnIdentifier(resource)) {
            request.setMethod(Bundle.HTTPVerb.POST).setUrl(type).setIfNoneExist(marked);
        } else if (held == null || held.id().isEmpty()) {
            request.setMethod(Bundle.HTTPVerb.PUT).setUrl(type + "?" + marked);
        } else {
            resource.setId(held.id());
            request.setMethod(Bundle.HTTPVerb.PUT).setUrl(type + "/" + held.id());
            request.setIfMatch(held.etag().isEmpty() ? null : held.etag());
        }
    }

    // By what the resource can be searched for.
    private String mark(Resource resource, String id) {
        if (isKnownByOwnIdentifier(resource)) {
            return query(((Patient) resource).getIdentifierFirstRep());
        }
        RuntimeResourceDefinition definition = fhir.getResourceDefinition(resource);
        if (definition.getChildByName("identifier") == null || resource instanceof Patient) {
            resource.getMeta().addTag(new Coding().setSystem(tagSystem).setCode(id));
            return "_tag=" + tagSystem + "|" + id;
        }
        Identifier ours = new Identifier().setSystem(UUID_SYSTEM).setValue(UUID + id);
        List<IBase> identifiers =
                definition.getChildByName("identifier").getAccessor().getValues(resource);
        if (identifiers.stream().noneMatch(it -> ours.equalsDeep((Identifier) it))) {
            definition.getChildByName("identifier").getMutator().addValue(resource, ours);
        }
        return query(ours);
    }

    private static boolean isKnownByOwnIdentifier(Resource resource) {
        return resource instanceof Patient patient && patient.hasIdentifier();
    }

    /** How a mother is found by one of her identifiers. */
    static String query(Identifier identifier) {
        return "identifier=" + escaped(identifier.getSystem()) + "|" + escaped(identifier.getValue());
    }

    private static String escaped(String text) {
        return UriUtils.encodeQueryParam(text.replaceAll("([\\\\,|$])", "\\\\$1"), StandardCharsets.UTF_8);
    }

    private void refer(Resource resource, Map<String, String> references) {
        for (ResourceReferenceInfo info : fhir.newTerser().getAllResourceReferences(resource)) {
            Reference reference = (Reference) info.getResourceReference();
            String theirs = references.get(String.valueOf(reference.getReference()));
            if (theirs != null) {
                reference.setReference(theirs);
            }
        }
    }

    private static String name(Resource resource) {
        return resource.fhirType() + "/" + resource.getIdPart();
    }

    private static Map<String, String> references(List<Resource> resources, Map<String, Held> there) {
        Map<String, String> references = new LinkedHashMap<>();
        resources.forEach(it -> references.put(name(it), UUID + it.getIdPart()));
        there.forEach((name, held) -> {
            if (!held.id().isEmpty() && !name.startsWith("Patient/")) {
                references.put(name, name.substring(0, name.indexOf('/') + 1) + held.id());
            } else if (!held.id().isEmpty()) {
                references.putIfAbsent(name, "Patient/" + held.id());
            }
        });
        return references;
    }
}
