package example.tamponade.app.observation;

import example.tamponade.app.intake.ReasonCode;
import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Observation.ObservationComponentComponent;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.Type;
import org.jspecify.annotations.Nullable;

/** States what an observation and its components read. */
final class Readings {

    private static final String BLOOD_LOSS = "blood-loss.volumeMl";
    private static final List<String> READ_OF_BLOOD = List.of("/data/volumeMl", "/data/wetG", "/data/dryG");
    private static final String UNRECORDABLE = "/data/pressureUnrecordable";

    private final Codes codes;
    private final Values values;

    Readings(Codes codes, Values values) {
        this.codes = codes;
        this.values = values;
    }

    /** The type of event that the observation is of; null when none can be made of it. */
    @Nullable
    String type(Observation observation) {
        List<String> properties = codes.properties(observation.getCode());
        if (properties.isEmpty()) {
            return codes.panel(observation.getCode());
        }
        String type = typeOf(properties.get(0));
        return Codes.TYPES.contains(type) ? type : null;
    }

    private static String typeOf(String property) {
        return property.substring(0, property.indexOf('.'));
    }

    /**
     * States everything that the observation reads.
     *
     * @param name what its places begin with
     */
    void state(Observation observation, String type, Found found, String name) {
        List<String> properties = codes.properties(observation.getCode());
        if (properties.size() > 1) {
            found.refuse(
                    ReasonCode.INVALID_VALUE,
                    "/data",
                    name + ".code",
                    "its codes mean different things: " + String.join(", ", properties),
                    "send an Observation for each");
            return;
        }
        for (int i = 0; i < observation.getComponent().size(); i++) {
            component(observation.getComponent().get(i), type, found, name + ".component[" + i + "]");
        }
        if (observation.hasMethod() && type.equals("blood-loss")) {
            values.method(observation.getMethod(), found, name + ".method");
        }
        if (type.equals("laboratory")) {
            found.state("/data/analyte", String.valueOf(codes.analyte(observation.getCode())), null, name + ".code");
        }
        if (type.equals("urine") && observation.getEffective() instanceof Period period) {
            time("/data/from", period.getStartElement().getValueAsString(), found, name + ".effectivePeriod.start");
            time("/data/to", period.getEndElement().getValueAsString(), found, name + ".effectivePeriod.end");
        }
        own(observation, properties.isEmpty() ? null : properties.get(0), found, name);
    }

    private static void time(String path, @Nullable String text, Found found, String place) {
        if (text != null) {
            found.state(path, text, null, place);
        }
    }

    private void own(Observation observation, @Nullable String property, Found found, String name) {
        boolean blood = BLOOD_LOSS.equals(property);
        if (blood && READ_OF_BLOOD.stream().anyMatch(found.stated::states)) {
            return;
        }
        if (blood && found.stated.states("/data/otherFluidMl")) {
            found.refuse(
                    ReasonCode.MISSING_PROPERTY,
                    "/data/volumeMl",
                    name + ".component",
                    "other fluid is given, but not the volume that it is part of",
                    "send the volume as it was read in a component blood-loss-volume-read");
            return;
        }
        value(observation.getValue(), observation.getDataAbsentReason(), property, found, name);
    }

    private void component(ObservationComponentComponent component, String type, Found found, String place) {
        List<String> properties = codes.properties(component.getCode());
        if (properties.size() != 1 || !typeOf(properties.get(0)).equals(type)) {
            found.refuse(
                    ReasonCode.UNKNOWN_PROPERTY,
                    "",
                    place + ".code",
                    "a component with this code has no place in " + type,
                    "leave it out, or send an Observation of its own");
            return;
        }
        value(component.getValue(), component.getDataAbsentReason(), properties.get(0), found, place);
    }

    private void value(
            @Nullable Type value,
            @Nullable CodeableConcept absent,
            @Nullable String property,
            Found found,
            String place) {
        if (value != null && !value.isEmpty()) {
            if (property == null) {
                found.refuse(
                        ReasonCode.UNKNOWN_PROPERTY,
                        "",
                        place + ".value",
                        "a set of readings has no value of its own",
                        "send each reading as a component");
            } else {
                values.state(property, value, found, place + ".value" + capitalized(value.fhirType()));
            }
        } else if (absent != null
                && codes.has(absent, "bedside-item", "pressure-unrecordable")
                && !found.stated.states(UNRECORDABLE)) {
            found.state(UNRECORDABLE, "true", null, place + ".dataAbsentReason");
        }
    }

    private static String capitalized(String type) {
        return Character.toUpperCase(type.charAt(0)) + type.substring(1);
    }
}
