package example.tamponade.fhir.pseudonym;

import example.tamponade.fhir.mapping.CaseMapper;
import example.tamponade.fhir.terms.Narratives;
import java.util.List;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.BaseDateTimeType;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.DomainResource;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Meta;
import org.hl7.fhir.r4.model.Narrative;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Property;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.StringType;
import org.hl7.fhir.r4.model.UriType;

/** Goes through one resource and changes what tells whose it is. Texts go unless they are known to be the adapter's own. */
final class PseudonymWalk {

    private static final String URN = "urn:uuid:";
    private static final String DIGEST = "sha-256:";

    private final PseudonymKey key;
    private final String base;
    private final TimeShift shift;

    PseudonymWalk(PseudonymKey key, String base, TimeShift shift) {
        this.key = key;
        this.base = base;
        this.shift = shift;
    }

    Resource of(Resource original) {
        Resource resource = original.copy();
        resource.setId(key.id(original.getIdPart()));
        if (resource instanceof Patient patient) {
            patient.setBirthDate(null);
        }
        if (resource instanceof Device device) {
            device.setExpirationDateElement(null);
        }
        walk(resource, resource.fhirType());
        Coarse.make(resource);
        if (resource instanceof DomainResource domain && domain.hasText()) {
            domain.setText(Narratives.of(List.of(
                    Titles.of(resource) + ".",
                    "Pseudonymised; the coded values of this entry say more.",
                    CaseMapper.CAUTION)));
        }
        return resource;
    }

    void walk(Base parent, String path) {
        for (Property property : parent.children()) {
            String name = property.getName().replace("[x]", "");
            for (Base value : List.copyOf(property.getValues())) {
                change(parent, value, path + "." + name);
            }
        }
    }

    private void change(Base parent, Base value, String path) {
        if (value instanceof Resource || value instanceof Narrative) {
            return;
        }
        if (value instanceof Meta meta) {
            changeMeta(meta);
        } else if (value instanceof Identifier identifier) {
            changeIdentifier(identifier);
        } else if (value instanceof Reference reference) {
            changeReference(reference);
        } else if (value instanceof BaseDateTimeType time) {
            shift.move(time);
        } else if (value instanceof UriType uri) {
            changeUri(uri);
        } else if (value.getClass() == StringType.class) {
            changeText(parent, (StringType) value, path);
        } else {
            walk(value, value instanceof Extension extension ? path + "(" + tail(extension.getUrl()) + ")" : path);
        }
    }

    private void changeMeta(Meta meta) {
        meta.setVersionId(null).setLastUpdated(null);
        // What a site's profile demands may be what goes.
        meta.getProfile().removeIf(it -> !it.getValue().startsWith(base));
        if (meta.hasSource()) {
            meta.setSource(URN + key.id(meta.getSource().replaceFirst("#.*", "").substring(URN.length())));
        }
    }

    private void changeIdentifier(Identifier identifier) {
        if (identifier.hasValue()) {
            if (identifier.getValue().startsWith(URN)) {
                identifier.setValue(URN + key.id(identifier.getValue().substring(URN.length())));
            } else if (identifier.getValue().startsWith(base + "/")) {
                identifier.setValue(address(identifier.getValue()));
            } else {
                identifier.setValue(key.identifier(identifier.getSystem(), identifier.getValue()));
            }
        }
        boolean isOurs = identifier.hasSystem()
                && (identifier.getSystem().startsWith(base)
                        || identifier.getSystem().startsWith("urn:ietf:"));
        if (identifier.hasSystem() && !isOurs) {
            identifier.setSystem(base + "/identifier/pseudonym");
        }
        if (identifier.hasAssigner()) {
            changeReference(identifier.getAssigner());
        }
    }

    // What a view left out is named by its address.
    private String address(String address) {
        int slash = address.lastIndexOf('/');
        return address.substring(0, slash + 1) + key.id(address.substring(slash + 1));
    }

    private void changeReference(Reference reference) {
        if (reference.hasDisplay()) {
            reference.setDisplay("Removed");
        }
        if (reference.hasReference()) {
            String id = reference.getReferenceElement().getIdPart();
            reference.setReference(reference.getReferenceElement().getResourceType() + "/" + key.id(id));
        }
        if (reference.hasIdentifier()) {
            changeIdentifier(reference.getIdentifier());
        }
    }

    private void changeUri(UriType uri) {
        String value = uri.getValue();
        if (value != null && value.startsWith(URN)) {
            uri.setValue(URN + key.id(value.substring(URN.length())));
        }
    }

    private void changeText(Base parent, StringType text, String path) {
        String value = text.getValue();
        if (value == null) {
            return;
        }
        if (value.startsWith(DIGEST)) {
            text.setValue(DIGEST + key.digest(value));
        } else if (path.endsWith("(care-protocol).value")) {
            text.setValue(protocol(value));
        } else {
            text.setValue(OwnTexts.of(parent, path, value));
        }
    }

    // Id, version and digest: a facility's own care protocol is named as its facility is, ours as it is.
    private String protocol(String reference) {
        String[] parts = reference.split("\\|", -1);
        return parts.length != 3 || parts[0].equals("common-practice")
                ? reference
                : String.join("|", key.identifier("care-protocol", parts[0]), parts[1], key.digest(parts[2]));
    }

    private static String tail(String url) {
        return url.substring(url.lastIndexOf('/') + 1);
    }
}
