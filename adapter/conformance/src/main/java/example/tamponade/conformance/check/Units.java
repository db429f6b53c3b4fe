package example.tamponade.conformance.check;

import java.io.InputStream;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.ConcurrentHashMap;
import org.fhir.ucum.UcumEssenceService;
import org.fhir.ucum.UcumException;
import org.fhir.ucum.UcumService;

/** The codes of UCUM, <a href="https://ucum.org/ucum">ucum.org</a>, as the library of its editors reads them. */
final class Units {

    static final String SYSTEM = "http://unitsofmeasure.org";

    private static final int LONGEST = 50;
    private static final int MOST_KEPT = 10_000;
    private static final Map<String, Boolean> KNOWN = new ConcurrentHashMap<>();

    private Units() {}

    /** Whether a code is a unit. */
    static boolean isValid(String code) {
        Boolean known = KNOWN.get(code);
        if (known == null) {
            known = code.length() <= LONGEST && Library.SERVICE.validate(code) == null;
            if (KNOWN.size() < MOST_KEPT) {
                KNOWN.put(code, known);
            }
        }
        return known;
    }

    private static final class Library {

        private static final UcumService SERVICE = open();

        private static UcumService open() {
            try (InputStream units = UcumEssenceService.class.getResourceAsStream("/ucum-essence.xml")) {
                return new UcumEssenceService(Objects.requireNonNull(units, "ucum-essence.xml"));
            } catch (UcumException | java.io.IOException e) {
                throw new IllegalStateException("the table of UCUM is not readable", e);
            }
        }
    }
}
