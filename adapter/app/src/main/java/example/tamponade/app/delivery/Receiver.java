package example.tamponade.app.delivery;

import example.tamponade.app.outbox.Held;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Resource;

/** Where resources are put. */
interface Receiver extends AutoCloseable {

    /**
     * Puts each resource at its address: all of them or none.
     *
     * @param caseKey the case or facility that they are of
     * @param there what it holds of them, and of what they point to where it gives its own ids, by {@code Type/id}
     */
    Answer put(String caseKey, List<Resource> resources, Map<String, Held> there);

    /**
     * Asks which versions it has.
     *
     * @param known resources, {@code Type/id}, with what is known of each
     * @return how it names the version of each that it has; an empty text where it does not say
     * @throws java.io.UncheckedIOException when it does not answer
     */
    Map<String, String> versions(Map<String, Held> known);

    @Override
    default void close() {}
}
