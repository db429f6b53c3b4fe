package example.tamponade.app.observation;

import example.tamponade.app.intake.ReasonCode;
import java.util.Objects;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.InstantType;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Type;
import org.jspecify.annotations.Nullable;

/** States whose an observation is, where, when and by whom it was made: by logical references, so that it stands alone. */
final class Frame {

    private static final String FUNCTION = "http://hl7.org/fhir/StructureDefinition/event-performerFunction";

    private final Codes codes;
    private final String roles;

    /**
     * Frames observations.
     *
     * @param roles the code system of the recorders' roles
     */
    Frame(Codes codes, String roles) {
        this.codes = codes;
        this.roles = roles;
    }

    void state(Observation observation, Found found) {
        Identifier mothersCase = Stream.of(observation.getEncounter(), observation.getSubject())
                .map(Reference::getIdentifier)
                .filter(it -> is(it, "case"))
                .findFirst()
                .orElse(null);
        if (mothersCase == null) {
            missing(
                    found,
                    "/caseId",
                    "Observation.encounter",
                    "nothing says which case it is of",
                    "send encounter.identifier with system " + codes.numbers("case") + " and the case as its value");
        } else {
            caseId(mothersCase.getValue(), found);
        }
        recorder(observation, found);
        String occurred = occurredAt(observation);
        if (occurred == null) {
            missing(
                    found,
                    "/occurredAt",
                    "Observation.effective",
                    "nothing says when it was observed",
                    "send effectiveDateTime, or effectivePeriod with its end");
            return;
        }
        found.state("/occurredAt", occurred, null, "Observation.effective");
        String issued = observation.getIssuedElement().getValueAsString();
        if (issued == null) {
            found.state("/recordedAt", occurred, null, "Observation.effective");
        } else {
            found.state("/recordedAt", issued, null, "Observation.issued");
        }
    }

    // A number alone is the sender's own; before a slash stands the facility whose number it is.
    private static void caseId(String value, Found found) {
        String place = "Observation.encounter.identifier";
        int slash = value.indexOf('/');
        if (slash >= 0) {
            found.state("/caseFacility", value.substring(0, slash), null, place);
        }
        found.state("/caseId", value.substring(slash + 1), null, place);
    }

    private void recorder(Observation observation, Found found) {
        Reference performer = observation.getPerformer().stream()
                .filter(it -> is(it.getIdentifier(), "staff"))
                .findFirst()
                .orElse(null);
        Reference device = observation.getDevice();
        if (performer == null && !is(device.getIdentifier(), "staff")) {
            missing(
                    found,
                    "/recordedBy",
                    "Observation.performer",
                    "nothing says who recorded it",
                    "send performer.identifier with system " + codes.numbers("staff")
                            + ", or device.identifier where a monitor did");
        } else {
            Identifier staff = performer == null ? device.getIdentifier() : performer.getIdentifier();
            String place = performer == null ? "Observation.device" : "Observation.performer";
            found.state("/recordedBy/id", staff.getValue(), null, place + ".identifier");
            role(performer, found);
        }
        facility(observation, found);
    }

    private void role(@Nullable Reference performer, Found found) {
        String role = performer == null ? "monitor" : role(performer.getExtensionByUrl(FUNCTION));
        if (role == null) {
            missing(
                    found,
                    "/recordedBy/role",
                    "Observation.performer.extension",
                    "nothing says in what role it was recorded",
                    "send the extension " + FUNCTION + " with a code from " + roles);
        } else {
            found.state("/recordedBy/role", role, null, "Observation.performer.extension");
        }
    }

    private @Nullable String role(@Nullable Extension function) {
        return function != null && function.getValue() instanceof CodeableConcept concept
                ? concept.getCoding().stream()
                        .filter(it -> it.hasCode() && roles.equals(it.getSystem()))
                        .map(Coding::getCode)
                        .findFirst()
                        .orElse(null)
                : null;
    }

    private void facility(Observation observation, Found found) {
        Stream<Reference> all = Stream.concat(observation.getPerformer().stream(), Stream.of(observation.getDevice()));
        all.map(Reference::getIdentifier)
                .flatMap(it -> Stream.of(it, it.getAssigner().getIdentifier()))
                .filter(it -> is(it, "facility"))
                .findFirst()
                .ifPresentOrElse(
                        it -> found.state("/facilityId", it.getValue(), null, "Observation.performer"),
                        () -> missing(
                                found,
                                "/facilityId",
                                "Observation.performer",
                                "nothing says at which facility it was recorded",
                                "send performer.identifier.assigner.identifier with system "
                                        + codes.numbers("facility")));
    }

    private boolean is(Identifier identifier, String kind) {
        return identifier.hasValue() && codes.numbers(kind).equals(identifier.getSystem());
    }

    /** When it was observed, at the end of a period; null when it does not say. */
    static @Nullable String occurredAt(Observation observation) {
        Type effective = observation.getEffective();
        if (effective instanceof Period period) {
            return Objects.requireNonNullElse(
                            period.hasEnd() ? period.getEndElement() : period.getStartElement(), new DateTimeType())
                    .getValueAsString();
        }
        if (effective instanceof DateTimeType time) {
            return time.getValueAsString();
        }
        return effective instanceof InstantType instant ? instant.getValueAsString() : null;
    }

    private static void missing(Found found, String path, String place, String message, String remedy) {
        found.refuse(ReasonCode.MISSING_PROPERTY, path, place, message, remedy);
    }
}
