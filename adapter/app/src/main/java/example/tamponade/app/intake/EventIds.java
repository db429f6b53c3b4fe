package example.tamponade.app.intake;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.impl.NameBasedGenerator;
import java.util.UUID;

/**
 * Ids for events whose format has none: UUID version 5 of what names the entry at its sender, so that sending it again
 * gives the same id.
 */
public final class EventIds {

    private static final NameBasedGenerator NAMES =
            Generators.nameBasedGenerator(Generators.nameBasedGenerator(NameBasedGenerator.NAMESPACE_URL)
                    .generate("https://tamponade-adapter.example/fhir/event"));

    private EventIds() {}

    /**
     * The id of an entry.
     *
     * @param format the format it came in
     * @param names what names the entry, from wide to narrow, for example facility, case, entry number
     */
    public static UUID of(InputFormat format, String... names) {
        StringBuilder name = new StringBuilder(format.code());
        for (String part : names) {
            // The length keeps "a", "bc" apart from "ab", "c".
            name.append('/').append(part.length()).append(':').append(part);
        }
        return NAMES.generate(name.toString());
    }
}
