package example.tamponade.app.observation;

import example.tamponade.app.intake.EventIds;
import example.tamponade.app.intake.InputFormat;
import java.util.Objects;
import java.util.UUID;
import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Observation;
import org.jspecify.annotations.Nullable;

/**
 * What names an observation at its sender.
 *
 * @param event the id of the event
 * @param shared whether several observations can be of that event
 */
record Identity(UUID event, boolean shared) {

    private static final Pattern URN =
            Pattern.compile("urn:uuid:[0-9a-fA-F]{8}-[0-9a-fA-F]{4}-[0-9a-fA-F]{4}-[0-9a-fA-F]{4}-[0-9a-fA-F]{12}");

    /**
     * The identity by an identifier; else by a source that is the id of an event; else by the id at that source. Null when
     * nothing names the observation.
     */
    static @Nullable Identity of(Observation observation) {
        Identifier identifier = observation.getIdentifierFirstRep();
        String source = observation.getMeta().getSource();
        if (identifier.hasValue()) {
            String system = Objects.requireNonNullElse(identifier.getSystem(), "");
            return new Identity(EventIds.of(InputFormat.OBSERVATION, system, identifier.getValue()), false);
        }
        if (source != null && URN.matcher(source).matches()) {
            return new Identity(UUID.fromString(source.substring("urn:uuid:".length())), true);
        }
        String id = observation.getIdElement().getIdPart();
        return source == null || id == null
                ? null
                : new Identity(EventIds.of(InputFormat.OBSERVATION, source, id), false);
    }
}
