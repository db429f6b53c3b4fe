package example.tamponade.app.observation;

import example.tamponade.app.intake.EventIds;
import example.tamponade.app.intake.InputFormat;
import example.tamponade.app.intake.ReasonCode;
import example.tamponade.fhir.terms.EventForm;
import example.tamponade.fhir.terms.Terms;
import java.util.List;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Observation.ObservationStatus;
import org.jspecify.annotations.Nullable;

/** Reads the observations of one event. */
final class ObservationReader {

    private final Codes codes;
    private final Readings readings;
    private final Frame frame;

    ObservationReader(Terms terms, EventForm form) {
        this.codes = new Codes(terms);
        this.readings = new Readings(codes, new Values(form));
        this.frame = new Frame(codes, terms.system("staff-role"));
    }

    /** The type of event that the observation is of; null when none can be made of it. */
    @Nullable
    String type(Observation observation) {
        return readings.type(observation);
    }

    /** Reads observations of one event, which agree in source, status, time and type; of no other is more said than why. */
    Found read(List<Observation> observations) {
        Observation first = observations.get(0);
        Found found = new Found("Observation");
        String type = type(first);
        check(first, type, found);
        if (!found.reasons.isEmpty()) {
            return found;
        }
        frame.state(first, found);
        boolean withdrawn = first.getStatus() == ObservationStatus.ENTEREDINERROR;
        identity(first, withdrawn, found);
        if (type != null && !withdrawn) {
            found.state("/type", type, null, "Observation.code");
            for (Observation observation : observations) {
                readings.state(observation, type, found, name(observation, observations.size()));
            }
        }
        return found;
    }

    // In a set, the code tells which of its observations is meant, wherever they stand.
    private static String name(Observation observation, int of) {
        return of == 1
                ? "Observation"
                : "Observation " + observation.getCode().getCodingFirstRep().getCode();
    }

    private void check(Observation observation, @Nullable String type, Found found) {
        if (type == null) {
            found.refuse(
                    ReasonCode.NOT_SUPPORTED,
                    "/type",
                    "Observation.code",
                    "an Observation of this code cannot be taken as an event",
                    "send vital signs, blood loss, uterus, bleeding, symptoms, urine or laboratory results by their codes, and"
                            + " what else happened as answers to the form for bedside events");
        }
        if (observation.getCategory().stream().anyMatch(it -> codes.has(it, "observation-group", "derived"))) {
            refuse(found, "Observation.category", "a derived value is worked out here", "send the readings it is from");
        }
        if (observation.hasModifierExtension() || observation.hasImplicitRules()) {
            refuse(
                    found,
                    "Observation.modifierExtension",
                    "rules that change its meaning are not known here",
                    "send it without modifierExtension and implicitRules");
        }
        ObservationStatus status = observation.getStatus();
        if (status != ObservationStatus.FINAL
                && status != ObservationStatus.AMENDED
                && status != ObservationStatus.CORRECTED
                && status != ObservationStatus.ENTEREDINERROR) {
            refuse(
                    found,
                    "Observation.status",
                    status == null ? "it has no status" : "an Observation that is " + status.toCode() + " is no result",
                    "send it when it is final, amended, corrected or entered-in-error");
        }
    }

    private static void refuse(Found found, String place, String message, String remedy) {
        found.refuse(ReasonCode.NOT_SUPPORTED, "", place, message, remedy);
    }

    private static void identity(Observation observation, boolean withdrawn, Found found) {
        Identity identity = Identity.of(observation);
        if (identity == null) {
            found.refuse(
                    ReasonCode.MISSING_PROPERTY,
                    "/eventId",
                    "Observation.identifier",
                    "nothing names it, so that sending it again would count it twice",
                    "send an identifier, or an id together with meta.source");
            return;
        }
        String id = identity.event().toString();
        String status = String.valueOf(observation.getStatusElement().getValueAsString());
        if (withdrawn) {
            found.state("/eventId", derived(id, status, ""), null, "Observation.status");
            found.state("/retracts", id, null, "Observation.status");
        } else if (observation.getStatus() == ObservationStatus.FINAL || identity.shared()) {
            found.state("/eventId", id, null, "Observation.identifier");
        } else {
            corrects(observation, id, found);
        }
    }

    private static void corrects(Observation observation, String id, Found found) {
        String issued = observation.getIssuedElement().getValueAsString();
        if (issued == null) {
            found.refuse(
                    ReasonCode.MISSING_PROPERTY,
                    "/recordedAt",
                    "Observation.issued",
                    "nothing says when it was corrected",
                    "send issued with the time of this version");
            return;
        }
        found.state("/eventId", derived(id, "corrected", issued), null, "Observation.status");
        found.state("/corrects", id, null, "Observation.status");
    }

    private static String derived(String id, String status, String version) {
        return EventIds.of(InputFormat.OBSERVATION, id, status, version).toString();
    }
}
