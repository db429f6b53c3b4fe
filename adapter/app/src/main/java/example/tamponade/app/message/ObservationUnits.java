package example.tamponade.app.message;

import ca.uhn.hl7v2.model.v251.datatype.CE;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The units of OBX-6 in UCUM. A unit of UCUM stands as it is. HL7's own older system (ISO+, 7.4.2.6), which holds where no
 * system is named, is read where it writes a unit as UCUM does or where the unit is certain; nothing else is guessed.
 */
final class ObservationUnits {

    private static final Set<String> READ_AS_UCUM = Set.of("", "UCUM", "ISO+");

    // Millimetre of mercury, degree Celsius, degree Fahrenheit.
    private static final Map<String, String> ISO_PLUS = Map.of("mm(hg)", "mm[Hg]", "cel", "Cel", "degf", "[degF]");

    private ObservationUnits() {}

    /** The UCUM code; empty when there is no unit, null when it is of a system that is not read. */
    static @Nullable String ucum(CE units) {
        if (!READ_AS_UCUM.contains(Fields.component(units, 3))) {
            return null;
        }
        String code = Fields.component(units, 1);
        return Fields.component(units, 3).equals("UCUM") ? code : ISO_PLUS.getOrDefault(code, code);
    }
}
