package example.tamponade.fhir.mapping;

import example.tamponade.core.casefile.Reading;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Which resource of an event holds which of its properties, where an event brings several. */
final class EventProperties {

    private static final Map<String, String> ROLES = Map.ofEntries(
            Map.entry("/data/pulse", Reading.PULSE.code()),
            Map.entry("/data/systolic", Reading.BLOOD_PRESSURE.code()),
            Map.entry("/data/diastolic", Reading.BLOOD_PRESSURE.code()),
            Map.entry("/data/respirations", Reading.RESPIRATIONS.code()),
            Map.entry("/data/oxygenSaturation", Reading.OXYGEN_SATURATION.code()),
            Map.entry("/data/temperatureC", Reading.TEMPERATURE.code()),
            Map.entry("/data/fundusCm", Reading.FUNDAL_HEIGHT.code()),
            Map.entry("/data/mother/ageYears", CaseMappers.MOTHER),
            Map.entry("/data/mother/weightKg", OpeningMapper.WEIGHT),
            Map.entry("/data/mother/heightCm", OpeningMapper.HEIGHT),
            Map.entry("/data/mother/gravida", "gravida"),
            Map.entry("/data/mother/para", "para"),
            Map.entry("/data/mother/gestationWeeks", "gestation"),
            Map.entry("/data/device/capacityMl", TamponadeMapper.DEVICE));

    private EventProperties() {}

    /**
     * The role of the resource that holds the property; null when it is not one alone.
     *
     * @param path JSON pointer into the event
     */
    static @Nullable String roleOf(String path) {
        return ROLES.get(path);
    }
}
